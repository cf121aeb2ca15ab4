// The page in German: a browser that reads German gets it, the choice is remembered, no English is left on any screen, and
// the longer words fit.

import assert from 'node:assert/strict';
import { fileURLToPath } from 'node:url';
import { englishOn } from './english.mjs';
import { boxes, layoutFile } from './layouts.mjs';
import { SCREENS, looksWell } from './look.mjs';
import { story } from './story.mjs';

const PICTURE = fileURLToPath(new URL('../../sample-layouts/rooftop-night/rooftop-night.png', import.meta.url));

/** Names that a sample brings along; they stay as they were given. `Deutsch` has `English` beside it. */
const OWN = ['Rooftop night', 'Title and motifs', 'Title band', 'Scene with windows', 'Frame', 'Plain shapes', 'English', 'Stickleaf',
  'left motif', 'right motif', 'title'];

/** Two boxes on each other, one past the edge, and one turned by a little with half a millimetre to the next. */
const BROKEN = boxes([[30, 40], [34, 42], [99, 90], [30, 100], [52.5, 100.25]], {
  stickers: [{
    id: 'box', name: 'Kiste', outline: 'M-10 -5H10V5H1V4.9H-1V5H-10Z', border_mm: 0.25, wanted: { at_least: 1 }, turns: 'none',
  }],
});

class GermanPage {
  constructor(page) {
    this.story = page;
    this.page = page.page;
  }

  button(name) {
    return this.page.getByRole('button', { name, exact: true });
  }

  async press(name) {
    await this.button(name).first().click();
  }

  /** Opens the menu of the top bar, which a wide page shows without being asked. */
  async openMenu() {
    const more = this.button('Mehr');
    if (await more.isVisible()) {
      await more.click();
    }
  }

  /** Hands a file to the page's own chooser. */
  async openFile(file) {
    await this.page.locator('.menu input[type=file]').setInputFiles(file);
  }

  /** Shows a panel: `Funde`, `Bogen`, `Hintergrund`. */
  async showPanel(name) {
    const tab = this.page.getByRole('group', { name: 'Leisten' }).getByRole('button', { name: new RegExp(`^${name}`) });
    const panel = this.page.getByRole('complementary', { name: 'Leisten' });
    if ((await tab.getAttribute('aria-pressed')) !== 'true' || !(await panel.isVisible())) {
      await tab.click();
    }
    await panel.waitFor();
  }

  async closePanel() {
    const close = this.page.locator('.drawer-close');
    if (await close.isVisible()) {
      await close.click();
    }
  }

  async openDetails() {
    for (const summary of await this.page.locator('.panels details:not([open]) > summary').all()) {
      await summary.click();
    }
  }
}

async function openInGerman(page, how) {
  await page.open({ locale: 'de-DE', touch: true, reducedMotion: true, ...how });
  const german = new GermanPage(page);
  await german.page.getByRole('status', { name: 'Zählung' }).getByText(/[1-9]\d* liegen/).waitFor();
  return german;
}

/** Every screen of the page, one after the other; `visit` is called on each with its name. */
async function walk(german, visit) {
  const { page } = german;
  await visit('desk');
  await german.press('Weitere Arten');
  await visit('more ways');
  await page.keyboard.press('Escape');
  await german.openMenu();
  await visit('menu');
  await german.press('Ein erster Rundgang');
  await visit('tour');
  await german.press('Überspringen');
  await german.openFile(layoutFile('kisten.json', BROKEN));
  await page.getByText('kisten.json ist geöffnet.').waitFor();
  await german.showPanel('Funde');
  await german.openDetails();
  await visit('findings');
  await german.press('Freien Platz zeigen');
  await page.getByRole('region', { name: 'Freier Platz' }).getByText(/ passt| passen/).first().waitFor();
  await visit('empty room');
  await german.press('Freien Platz zeigen');
  await german.showPanel('Bogen');
  await german.openDetails();
  await visit('sheet panel');
  await german.showPanel('Hintergrund');
  await german.openDetails();
  await german.press('Szene mit Fenstern');
  await page.getByRole('textbox', { name: 'Name von Himmel' }).waitFor();
  await visit('background panel');
  await german.press('Zone zeichnen');
  await german.closePanel();
  await visit('drawing');
  await german.press('Fertig');
  await german.press('Einzelheiten: Kiste');
  await visit('sticker panel');
  await german.closePanel();
  await german.press('Skizze');
  await visit('rough in');
  await page.keyboard.press('Escape');
  await page.keyboard.press('?');
  await visit('keys');
  await page.keyboard.press('Escape');
  await page.locator('.save-mark').first().click();
  await page.getByRole('dialog', { name: 'Meine Bögen' }).waitFor();
  await visit('my sheets');
  await page.keyboard.press('Escape');
  await german.press('Vergleich');
  await german.press('Abstand');
  await visit('compare at first');
  await german.press('5 s');
  await german.press('Diese vergleichen');
  await page.getByText(/so viele wie bei|mehr als bei|weniger als bei/).first().waitFor();
  await visit('comparing');
  await german.press('Anhalten');
  await german.button('Anhalten').waitFor({ state: 'hidden' });
  await visit('compare');
  await german.press('Ausgabe');
  await visit('press');
  await german.press('Monat');
  await visit('month');
  await german.press('Testkarten und Klinge');
  await page.locator('.cut').first().getByRole('button', { name: 'Sauber angeritzt' }).click();
  await visit('blade');
  await german.press('Tisch');
  await german.openFile(PICTURE);
  await page.getByText(/\d+ Zeichnungen gefunden/).waitFor();
  await visit('import');
  await page.keyboard.press('Escape');
  await page.getByRole('dialog', { name: 'Bilder holen' }).waitFor({ state: 'hidden' });
}

for (const [width, height] of SCREENS) {
  story(`the page speaks German at ${width}x${height}`, async (page, say) => {
    const german = await openInGerman(page, { viewport: { width, height } });
    assert.equal(await german.page.locator('html').getAttribute('lang'), 'de');
    await walk(german, async (screen) => {
      assert.deepEqual(await englishOn(german.page, OWN), [], `English on ${screen}`);
      await looksWell(page, `german ${screen} ${width}x${height}`, say, { controls: screen === 'keys' ? 1 : 4 });
    });
  }, { seconds: 240 });
}

story('a language that was chosen is remembered', async (page) => {
  const german = await openInGerman(page);
  await german.openMenu();
  await german.press('English');
  await german.button('Fill the sheet').waitFor();
  await page.reload();
  await german.button('Fill the sheet').waitFor();
  assert.equal(await german.page.locator('html').getAttribute('lang'), 'en');
  await page.page.getByRole('button', { name: 'More', exact: true }).click();
  await german.press('Deutsch');
  await german.button('Bogen füllen').waitFor();
});

story('a length is shown with a comma and read with either sign', async (page) => {
  const german = await openInGerman(page);
  await german.showPanel('Bogen');
  const field = german.page.getByRole('textbox', { name: 'Abstand zwischen Schnittlinien' });
  for (const [typed, shown] of [['2.5', '2,5'], ['1,25', '1,25'], ['2', '2']]) {
    await field.fill(typed);
    await field.press('Enter');
    assert.equal(await field.inputValue(), shown, typed);
  }
  await field.fill('viel');
  await field.press('Enter');
  await german.page.getByRole('alert').filter({ hasText: '„viel“ ist keine Zahl' }).waitFor();
});

story('inches can be shown in fractions, and are read so', async (page) => {
  await page.open();
  await page.page.getByRole('button', { name: 'More', exact: true }).click();
  await page.page.getByRole('button', { name: 'in ½' }).click();
  await page.showPanel('Sheet');
  const field = page.page.getByRole('textbox', { name: 'Spacing between cut lines' });
  await field.fill('3/32');
  await field.press('Enter');
  assert.equal(await field.inputValue(), '3/32');
  await page.saved();
  await page.reload();
  await page.showPanel('Sheet');
  assert.equal(await field.inputValue(), '3/32');
});
