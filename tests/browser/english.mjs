// English that is left on a page in another language: what is to be read, and what is read out.

/**
 * Words that an English sentence hardly does without, and those of this page's controls, none of which is German too or
 * the name of something in a sample.
 */
const ENGLISH = new Set(`
  a about above again all and any are as asked at away back be because below between border borders bring broken by can cannot
  cancel change changes check choose close closer compare copies copy could cut delete dense desk discard do does done draw
  earlier edge edit empty every export fewer fill findings first fit fits for from full gap gaps get go has have height
  here holds how if import inch inches is it its keep kept keys large larger last least left less limits line lines look made
  make margin may more most move name new no none not nothing number of off on once one only open or other outline own
  paper piece pieces place placed places placing press range ready redo remove resolution rough rounds rule rules save saved
  seconds seed sheet sheets show shown size small smaller smallest so spacing sticker stickers stop take than that the their
  them these they thing this to too turn turned undo unit until upright use wanted was were what when where which whole width
  will with without works you your zones
`.split(/\s+/).filter(Boolean));

/** These are German as well, or units and names of formats. */
const BOTH = new Set(['a', 'all', 'am', 'an', 'in', 'name', 'so', 'was', 'war', 'no', 'also', 'export', 'import', 'paper', 'rough', 'do', 'on', 'bring']);

/** Files are called the same in every language. */
const FILE_NAME = /[\w.-]+\.(png|svg|json|csv|pdf|zip|stickleaf)\b/g;

/** Each text that is shown, or read out for a control, with an English word in it. Texts of `own` names are passed over. */
export async function englishOn(page, own = []) {
  const texts = await page.evaluate(() => {
    const isShown = (element) => element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
    const found = new Set();
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const { parentElement, data } = walker.currentNode;
      if (data.trim() && !['SCRIPT', 'STYLE', 'NOSCRIPT'].includes(parentElement.tagName) && isShown(parentElement)) {
        found.add(data.trim());
      }
    }
    const names = ['aria-label', 'aria-description', 'aria-roledescription', 'aria-valuetext', 'title', 'alt', 'placeholder'];
    for (const name of names) {
      for (const element of document.querySelectorAll(`body [${name}]`)) {
        found.add(element.getAttribute(name));
      }
    }
    return [...found];
  });
  const isEnglish = (text) => text.toLowerCase().split(/[^\p{L}]+/u).some((word) => ENGLISH.has(word) && !BOTH.has(word));
  const withoutNames = (text) => own.reduce((rest, name) => rest.replaceAll(name, ''), text.replaceAll(FILE_NAME, ''));
  return texts.filter((text) => isEnglish(withoutNames(text)));
}
