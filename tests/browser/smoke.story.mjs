import assert from 'node:assert/strict';
import { story } from './story.mjs';

story('the page opens and starts', async (page) => {
  await page.open();
  assert.equal(await page.title(), 'Stickleaf');
  await page.page.getByText('Loading', { exact: true }).waitFor({ state: 'detached' });
  assert.deepEqual(page.complaints, []);
  assert.equal(await page.page.getByRole('alert').count(), 0);
  await page.screenshot('the page opens');
});

story('small pictures in the tray show the drawings once these are there', async (page) => {
  // Drawings come one after the other, and each makes all small pictures anew: the last one has to stay.
  await page.open();
  await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
  const bare = () => page.page.locator('img.thumbnail').evaluateAll((pictures) => pictures.filter((picture) => {
    const canvas = Object.assign(document.createElement('canvas'), { width: picture.naturalWidth, height: picture.naturalHeight });
    if (canvas.width === 0) return true;
    const context = canvas.getContext('2d');
    context.drawImage(picture, 0, 0);
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    // The colour that stands for a drawing which is not there: #c9d6cf.
    const count = data.reduce((sum, red, i) => sum + (i % 4 === 0 && red === 0xc9 && data[i + 1] === 0xd6 && data[i + 2] === 0xcf), 0);
    return count > 20;
  }).length);
  assert.ok(await page.page.locator('img.thumbnail').count() > 5);
  await page.until(async () => (await bare()) === 0, 'no small picture is a bare outline');
});
