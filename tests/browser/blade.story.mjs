// The blade: trial cuts on a card at true size, what their outcomes say, and a log that suggests a setting.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { SCREENS, looksWell } from './look.mjs';
import { story } from './story.mjs';

/** The part of the Month about the blade. */
class BladePart {
  constructor(page) {
    this.page = page;
    this.browser = page.page;
  }

  async open() {
    await this.page.goTo('Month');
    await this.browser.getByRole('button', { name: 'Test cards and blade' }).click();
  }

  press(button) {
    return this.browser.getByRole('button', { name: button, exact: true }).click();
  }

  /** Says how the trial of this name on the card of this number came out. */
  async cameOut(card, trial, outcome) {
    const cards = this.browser.locator('.trial-card');
    await cards.nth(card - 1).getByRole('group', { name: trial, exact: true }).getByRole('button', { name: outcome }).click();
  }

  /** The trials on the card of this number. */
  trials(card) {
    return this.browser.locator('.trial-card').nth(card - 1).locator('.cut-name').allInnerTexts();
  }

  /** What the outcomes say, or, with 1, what the log says. */
  async said(place = 0) {
    return (await this.browser.locator('.trial-said').nth(place).innerText()).trim();
  }

  async saveCard(card) {
    const button = this.browser.locator('.trial-card').nth(card - 1).getByRole('button', { name: 'Save the card as SVG' });
    const [download] = await Promise.all([this.browser.waitForEvent('download'), button.click()]);
    return { name: download.suggestedFilename(), text: await readFile(await download.path(), 'utf8') };
  }
}

story('a setting is found on test cards, and the log suggests it for a worn blade', async (page) => {
  await page.open();
  const blade = new BladePart(page);
  await blade.open();
  await page.type('Machine', 'Desk');
  await page.type('Blade', '45');
  await page.type('Label stock', 'Matt');
  await page.type('Lightest', '2');
  await page.type('Strongest', '18');
  await page.type('Step between trials', '2');
  assert.deepEqual(await blade.trials(1), ['2', '4', '6', '8', '10', '12', '14', '16', '18']);
  await page.type('Step between trials', '0');
  assert.match(await page.troubleAt('Step between trials'), /give more than 0/);
  await page.press('Escape');

  // Three trials of 10 mm in a row, 3 mm round each: 3 + 3 x 13 mm. The command line writes the same card.
  const card = await blade.saveCard(1);
  assert.equal(card.name, 'test-card-1.svg');
  assert.match(card.text, /width="42mm" height="52\.2mm" viewBox="0 0 42 52\.2"/);
  assert.equal(card.text.match(/<g id="trial-/g).length, 9);

  assert.match(await blade.said(), /Nothing is known yet/);
  await blade.cameOut(1, '6', 'Not through the face');
  await blade.cameOut(1, '14', 'Through the backing');
  assert.match(await blade.said(), /lies from 8 to 12\.\s+Try next: 8, 10, 12\./);
  await blade.press('Make the next card');
  assert.deepEqual(await blade.trials(2), ['8', '10', '12']);
  await blade.cameOut(2, '10', 'Clean kiss');
  assert.match(await blade.said(), /^10 most likely cuts clean, with a chance of \d\d %/);
  // What speaks against the rest is named, and can be taken back.
  await blade.cameOut(2, '8', 'Through the backing');
  assert.match(await blade.said(), /contradict each other; against the rest speaks (8|10)\./);
  await blade.cameOut(2, '8', 'Through the backing');
  assert.doesNotMatch(await blade.said(), /contradict/);

  await page.type('This blade has cut, m', '10');
  assert.match(await blade.said(1), /no clean cut of this machine/);
  await blade.press('Note 3 outcomes in the blade log');
  assert.match(await blade.said(1), /^Try 10, from one clean cut\./);
  await page.type('This blade has cut, m', '30');
  await page.type('A setting you cut with', '14');
  await blade.browser.getByRole('group', { name: 'Note how it came out' }).getByRole('button', { name: 'Clean kiss' }).click();
  await page.type('This blade has cut, m', '20');
  // Half way between 10 at 10 m and 14 at 30 m.
  assert.match(await blade.said(1), /^Try 12, from 2 clean cuts\.\s+Fewer than four clean cuts/);

  await page.reload();
  await blade.open();
  assert.match(await blade.said(1), /^Try 12, from 2 clean cuts\./, 'it is still there');
  assert.deepEqual(await blade.trials(2), ['8', '10', '12']);
  // Another blade has nothing yet, and the log offers the one before.
  await page.type('Blade', '60');
  assert.match(await blade.said(1), /no clean cut of this machine/);
  assert.equal(await blade.browser.getByRole('textbox', { name: 'This blade has cut, m' }).inputValue(), '0');
  await blade.press('Desk · 45 · Matt');
  assert.equal(await blade.browser.getByRole('textbox', { name: 'This blade has cut, m' }).inputValue(), '20');
  await blade.press('Remove from the log: 14: Clean kiss, after 30 m');
  assert.match(await blade.said(1), /^Try 10, from one clean cut\./);
});

story('passes and names can be tried too', async (page) => {
  await page.open();
  const blade = new BladePart(page);
  await blade.open();
  await blade.press('Passes');
  assert.deepEqual(await blade.trials(1), ['1', '2', '3', '4', '5', '6']);
  await blade.press('Named settings');
  await page.type('Names, the lightest first, with commas', 'soft, plain, strong');
  assert.deepEqual(await blade.trials(1), ['1: soft', '2: plain', '3: strong']);
  await blade.cameOut(1, '2: plain', 'Clean kiss');
  assert.match(await blade.said(), /^plain most likely cuts clean/);
  await blade.press('Make the next card');
  await blade.cameOut(2, '2: plain', 'Clean kiss');
  assert.match(await blade.said(), /^plain cuts clean, with a chance of 9\d %\.$/);
  await blade.press('Note 2 outcomes in the blade log');
  assert.match(await blade.said(1), /^Try plain, nearest to place 2 on the scale, from 2 clean cuts\./);
});

for (const [width, height] of SCREENS) {
  for (const colorScheme of ['light', 'dark']) {
    story(`the blade’s part looks well at ${width}x${height} ${colorScheme}`, async (page, say) => {
      await page.open({ viewport: { width, height }, colorScheme, touch: true, reducedMotion: true });
      const blade = new BladePart(page);
      await blade.open();
      await blade.cameOut(1, '3', 'Not through the face');
      await blade.cameOut(1, '8', 'Through the backing');
      await blade.press('Make the next card');
      await blade.cameOut(2, '6', 'Clean kiss');
      await blade.press('Note 3 outcomes in the blade log');
      await page.closeNotice();
      await looksWell(page, `blade ${width}x${height} ${colorScheme}`, say);
    });
  }
}
