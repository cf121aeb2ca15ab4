// What a run would come to if something were otherwise, and the cutter's speed from two jobs that were timed.

import assert from 'node:assert/strict';
import { SCREENS, looksWell } from './look.mjs';
import { story } from './story.mjs';

/** The Month with 300 sheets of the sample, two on a page, and label stock at 12.50 for 25 pages. */
async function priced(page, how) {
  await page.open(how);
  // The page opens with it.
  await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
  await page.goTo('Month');
  await page.type('Sheets wanted', '300');
  await page.type('Currency sign', '€');
  await page.type('Price of a pack', '12,50');
}

story('sliders say what a run would come to, and change nothing until asked', async (page) => {
  await priced(page, { touch: true });
  await page.slide('Sheets on a page', 3);
  // 100 good pages and 5 of 100 spoilt: 105.3, so 106; 106 x 12.50 / 25 is 53.00, and 17.667 cents a sheet.
  assert.deepEqual(await page.outcome('Pages'), ['158', '106', '−52']);
  assert.deepEqual(await page.outcome('Cost of the run'), ['€ 79.00', '€ 53.00', '−€ 26.00']);
  assert.deepEqual(await page.outcome('A sheet'), ['€ 0.263', '€ 0.177', '−€ 0.087']);
  // Of 200 x 287 mm three take two columns of 100 mm and two rows, as four do.
  await page.page.getByText(/^3 sheets of these proportions lie on the page up to 99\.9 mm x 140\.9 mm each, no larger: proven\.$/).waitFor();
  assert.match(await page.sum('Pages'), /^158,/, 'the run itself stays');

  // By keys and by touch.
  await page.slideByKeys('Passes for the card', 'ArrowLeft', 'ArrowLeft');
  assert.equal(await page.slid('Passes for the card'), '2');
  assert.match((await page.outcome('Blade'))[2], /^−\d+ m$/);
  const before = Number(await page.slid('Spoilt, of 100 pages'));
  await page.slideByTouch('Spoilt, of 100 pages', 0.7);
  const after = Number(await page.slid('Spoilt, of 100 pages'));
  assert.ok(before === 5 && after > 15 && after < 27, `${before} to ${after}`);

  // What is figures is taken, what follows from the sheet stays a question.
  await page.takeIntoFigures();
  assert.equal(await page.typed('Passes for the card'), '2');
  assert.equal(await page.typed('Spoilt, of 100 pages'), String(after));
  assert.equal(await page.slid('Sheets on a page'), '3');
  await page.noticed('Your figures are changed');
  await page.takeBack();
  assert.equal(await page.typed('Passes for the card'), '4');
  assert.match(await page.sum('Pages'), /^158,/);

  // What no price can satisfy is said.
  await page.type('Fee, % of the price', '30');
  await page.slide('To be left, % of the price', 75);
  await page.page.locator('.what-if').getByText(/Less than 100, or no price is high enough/).waitFor();
}, { seconds: 240 });

/** The time by the shop's figures that a line of a noted job ends with. */
const byFigures = (line) => line.match(/By your figures it takes (\d+:\d\d) min/)[1];

story('two timed jobs give the cutter’s speed and lift time', async (page) => {
  await page.open();
  await page.openSample('Rooftop night');
  await page.goTo('Month');
  await page.type('Time it took, min:s', 'soon');
  assert.match(await page.troubleAt('Time it took, min:s'), /as in 4:30/);
  await page.press('Escape');

  // The same twice says nothing new.
  const job = { part: 'Stickers only', sheets: 10, time: '30:00' };
  await page.noteJob(job);
  await page.noteJob(job);
  assert.match(await page.machineFound(), /alike/);
  const stickers = byFigures((await page.timedJobs())[0]);
  await page.leaveJobOut();
  await page.leaveJobOut();

  await page.noteJob({ part: 'Card only', sheets: 10, time: '30:00' });
  const card = byFigures((await page.timedJobs())[0]);
  assert.match(await page.machineFound(), /One more job/);
  await page.leaveJobOut();

  // Jobs that took just what the figures say lead back to the figures: 50 mm/s and 0.2 s.
  await page.noteJob({ part: 'Stickers only', sheets: 10, time: stickers });
  await page.noteJob({ part: 'Card only', sheets: 10, time: card });
  const [, speed, lift] = (await page.machineFound()).match(/cuts at ([\d.]+) mm\/s, and it takes ([\d.]+) s/).map(Number);
  assert.ok(Math.abs(speed - 50) < 1 && Math.abs(lift - 0.2) < 0.05, `${speed} mm/s, ${lift} s`);

  // They are kept, and are taken into the figures when asked.
  await page.reload();
  await page.goTo('Month');
  await page.until(async () => (await page.timedJobs()).length === 2, 'both jobs are there again');
  await page.type('Cutting speed, mm/s', '20');
  await page.takeIntoFigures();
  assert.equal(Number(await page.typed('Cutting speed, mm/s')), speed);
}, { seconds: 240 });

for (const [width, height] of SCREENS) {
  for (const colorScheme of ['light', 'dark']) {
    const screen = `${width}x${height} ${colorScheme}`;
    story(`sliders and timed jobs look well at ${screen}`, async (page, say) => {
      await priced(page, { viewport: { width, height }, colorScheme, touch: true, reducedMotion: true });
      await page.noteJob({ part: 'Stickers only', sheets: 1, time: '4:30' });
      await page.noteJob({ part: 'Card only', sheets: 1, time: '1:30' });
      await page.slide('Sheets on a page', 4);
      await page.slide('Passes for the card', 2);
      await page.page.locator('.outcome').scrollIntoViewIfNeeded();
      await looksWell(page, `what if ${screen}`, say);
      await page.page.locator('.timed').scrollIntoViewIfNeeded();
      await looksWell(page, `timed jobs ${screen}`, say);
    });
  }
}
