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
