// Who comes for the first time is shown round: four hints that can be left, and called again.

import assert from 'node:assert/strict';
import { SCREENS } from './look.mjs';
import { story } from './story.mjs';

const tour = (page) => page.page.getByRole('region', { name: 'A first look round' });
const button = (page, name) => tour(page).getByRole('button', { name, exact: true });

for (const [width, height] of SCREENS) {
  story(`a first visit shows four hints, once, at ${width}x${height}`, async (page) => {
    await page.open({ viewport: { width, height }, isFirstVisit: true, reducedMotion: true });
    await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
    for (let number = 1; number <= 4; number += 1) {
      await tour(page).getByText(`${number} of 4.`).waitFor();
      assert.deepEqual(await page.accessibilityFindings(), [], `hint ${number}`);
      await page.screenshot(`tour ${number} ${width}x${height}`);
      await button(page, number < 4 ? 'Next' : 'Begin').click();
    }
    await tour(page).waitFor({ state: 'detached' });
    await page.reload();
    await page.until(async () => (await page.placed()) > 0, 'the sample lies there again');
    assert.equal(await tour(page).count(), 0, 'it does not come twice');
  });
}

story('the hints can be left by a key and called again from the menu', async (page) => {
  await page.open({ isFirstVisit: true });
  await button(page, 'Skip').focus();
  await page.press('Escape');
  await tour(page).waitFor({ state: 'detached' });
  await page.page.getByRole('button', { name: 'More', exact: true }).click();
  await page.page.getByRole('button', { name: 'A first look round', exact: true }).click();
  await tour(page).getByText('1 of 4.').waitFor();
  assert.equal(await page.focused(), 'Next', 'keys go on from here');
  await page.press('Enter');
  await tour(page).getByText('2 of 4.').waitFor();
  await button(page, 'Skip').click();
  await tour(page).waitFor({ state: 'detached' });
});
