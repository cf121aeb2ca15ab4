// One story: an artist comes to a fresh page, does something, and sees something.

import assert from 'node:assert/strict';
import { after, test } from 'node:test';
import { launch } from './browser.mjs';
import { StickleafPage } from './page.mjs';

let browser;

after(async () => {
  await browser?.close();
});

/**
 * Tells a story. The page is not open yet when it begins, so that each story chooses its own screen.
 *
 * A story fails as well if the page complained on the way: an error on its console, or a call to another host.
 * Of a story that fails a picture is kept in tests/output.
 *
 * @param {string} name a sentence in the artist's words
 * @param {(page: StickleafPage, say: (remark: string) => void) => Promise<void>} tell what happens; `say` puts a remark
 *   into the report that is no failure
 * @param {{seconds?: number}} how how long it may take
 */
export function story(name, tell, { seconds = 120 } = {}) {
  test(name, { timeout: seconds * 1000 }, async (report) => {
    browser ??= await launch();
    const page = new StickleafPage(browser);
    try {
      await tell(page, (remark) => report.diagnostic(remark));
      assert.deepEqual(page.complaints, [], 'the page complained');
    } catch (error) {
      await page.screenshot(`failed ${name.replace(/[^\w ]/g, '')}`).catch(() => {});
      throw error;
    } finally {
      await page.close();
    }
  });
}
