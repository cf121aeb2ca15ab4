// The page without a network, and how one version of it follows another.

import assert from 'node:assert/strict';
import { Host } from './host.mjs';
import { boxes, layoutFile } from './layouts.mjs';
import { story } from './story.mjs';

const READY = 'Ready for offline use';
const NEWER = 'A newer version is here';

/** A story with a host of its own, which the page may copy itself from. */
function storyOnHost(name, tell) {
  story(name, async (page, say) => {
    const host = new Host();
    try {
      const url = await host.up();
      await page.open({ url, touch: true, serviceWorkers: 'allow' });
      await page.noticed(READY, { seconds: 30 });
      await tell(page, host, say);
    } finally {
      await host.end();
    }
  });
}

/** No network at all: neither for the page nor for what works behind it. */
async function goOffline(page, host) {
  await page.context.setOffline(true);
  await host.down();
}

async function samplesLie(page) {
  await page.until(async () => (await page.placed()) > 0, 'a sheet lies on the desk');
}

/** Fills the sheet for a moment; every worker that this needs has to come from somewhere. */
async function fill(page) {
  await page.fillSheet();
  await page.until(async () => (await page.progress()).includes('placed'), 'the workers are at work');
  await page.stop();
  await page.packed();
}

storyOnHost('after one visit the page works without a network', async (page, host) => {
  // Even the visit that it was copied on goes on without.
  await goOffline(page, host);
  await page.openSample('Star party');
  await fill(page);
  // The page keeps a change about a second after it.
  await page.page.waitForTimeout(2000);

  await page.reload();
  await page.noticed('Your last sheet is back');
  await page.startFresh();
  await samplesLie(page);
  await page.closeNotice();
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40]])));
  await page.noticed('boxes.json is open');
  await page.fillSheet();
  await page.until(async () => (await page.placed()) > 10, 'boxes are packed');
  // Where nothing is left to try it ends by itself.
  await page.packed();
  await page.openSample('Look up tonight');
  assert.ok((await page.placed()) > 10);
  assert.match(await page.tally(), /all rules hold$/);
});

storyOnHost('that it is ready is said once', async (page, host) => {
  await page.until(async () => (await page.notice()) === '', 'the notice goes by itself');
  host.asked = [];
  await page.reload();
  await samplesLie(page);
  await page.page.waitForTimeout(2000);
  assert.equal(await page.notice(), '');
  // The host is asked whether there is a newer version, and for nothing else.
  assert.deepEqual([...new Set(host.asked)], ['service-worker.js']);
});

storyOnHost('a newer version is offered, and used when the artist says so', async (page, host) => {
  const newer = host.putVersion('two');
  await page.reload();
  await page.noticed(NEWER);
  assert.equal(await page.title(), 'Stickleaf');
  // The one in use still has all its own files, though the host has not.
  await fill(page);
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [70, 100]])));
  await page.noticed(NEWER);
  assert.equal(await page.title(), 'Stickleaf');

  const sheet = await page.wholeSheet();
  await page.touchDrag(sheet.at({ x: 30, y: 40 }), sheet.at({ x: 42, y: 60 }));
  const [tally, pieces] = [await page.tally(), await page.pieces()];
  await page.useNewerVersion();
  await page.noticed('Your last sheet is back');
  assert.equal(await page.title(), newer);
  assert.equal(await page.tally(), tally);
  assert.deepEqual(await page.pieces(), pieces);
  await page.startFresh();
  await samplesLie(page);
  await fill(page);

  await goOffline(page, host);
  await page.reload();
  await page.noticed('Your last sheet is back');
  assert.equal(await page.title(), newer);
  assert.deepEqual(await page.keptCopies(), ['two']);
});

storyOnHost('a newer version that is not wanted waits for another visit', async (page, host) => {
  const newer = host.putVersion('two');
  await page.reload();
  await page.noticed(NEWER);
  assert.deepEqual(await page.accessibilityFindings(), []);
  await page.page.setViewportSize({ width: 390, height: 844 });
  const { height } = await page.noticeBox();
  assert.ok(height < 120, `the notice takes ${height} px of a narrow page`);
  await page.closeNotice();
  await page.page.waitForTimeout(1000);
  assert.equal(await page.notice(), '');
  await page.reload();
  await page.noticed(NEWER);
  assert.equal(await page.title(), 'Stickleaf');
  await page.useNewerVersion();
  await page.until(async () => (await page.title()) === newer, 'the newer version is there');
});

storyOnHost('a host that is half filled is not copied', async (page, host) => {
  const newer = host.putVersion('two');
  host.spoil('index.html');
  await page.reload();
  await samplesLie(page);
  await page.until(async () => host.asked.includes('index.html'), 'the newer version was looked at');
  await page.page.waitForTimeout(1000);
  assert.equal(await page.notice(), '');
  await goOffline(page, host);
  await page.reload();
  await samplesLie(page);
  assert.equal(await page.title(), 'Stickleaf');

  host.mend('index.html');
  await host.up();
  await page.context.setOffline(false);
  await page.reload();
  await page.noticed(NEWER);
  await page.useNewerVersion();
  await page.until(async () => (await page.title()) === newer, 'the newer version is there');
});

storyOnHost('every window of the page goes over to the newer version, and no sheet is lost', async (page, host) => {
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40]])));
  await page.noticed('boxes.json is open');
  await page.page.waitForTimeout(2000);
  const newer = host.putVersion('two');
  await page.reload();
  await page.noticed('Your last sheet is back');
  await page.closeNotice();
  await page.noticed(NEWER);
  // The other window has the same sheet, and does not know that it is changed in this one.
  const other = await page.anotherWindow();
  await page.openFile(layoutFile('more.json', boxes([[30, 40], [70, 100]])));
  await page.until(async () => (await page.placed()) === 2, 'the other file is open');
  await page.noticed(NEWER);
  await page.useNewerVersion();
  for (const window of [page.page, other]) {
    await page.until(async () => (await window.title()) === newer, 'the newer version is there');
  }
  await page.noticed('Your last sheet is back');
  assert.equal(await page.placed(), 2);
});

storyOnHost('the page stays as it is while its sheet cannot be kept', async (page, host) => {
  const newer = host.putVersion('two');
  await page.reload();
  await page.noticed(NEWER);
  await page.leaveRoom(1);
  await page.openFile(layoutFile('boxes.json', boxes([[30, 40]])));
  await page.notSavedBar().waitFor();
  await page.closeNotice();
  await page.noticed(NEWER);
  await page.useNewerVersion();
  await page.noticed('not kept on this device yet');
  await page.page.waitForTimeout(1000);
  assert.equal(await page.title(), 'Stickleaf');
  assert.equal(await page.placed(), 1);

  await page.leaveRoom();
  await page.saved();
  await page.closeNotice();
  await page.useNewerVersion();
  await page.until(async () => (await page.title()) === newer, 'the newer version is there');
  await page.until(async () => (await page.placed()) === 1, 'the sheet is there as well');
});

story('the page can be installed', async (page) => {
  const host = new Host();
  try {
    await page.open({ url: await host.up(), serviceWorkers: 'allow', hasProfile: true });
    await page.noticed(READY, { seconds: 30 });
    const { errors, data } = await page.session.send('Page.getAppManifest');
    assert.deepEqual(errors, []);
    assert.equal(JSON.parse(data).name, 'Stickleaf');
    const { installabilityErrors } = await page.session.send('Page.getInstallabilityErrors');
    assert.deepEqual(installabilityErrors, []);
  } finally {
    await page.close();
    await host.end();
  }
});

story('where the browser keeps no copies the page works as before', async (page) => {
  await page.open({
    beforeStart: () => {
      Object.defineProperty(Navigator.prototype, 'serviceWorker', { get() { throw new Error('not here'); } });
    },
  });
  await samplesLie(page);
  await page.page.waitForTimeout(500);
  assert.equal(await page.notice(), '');
});
