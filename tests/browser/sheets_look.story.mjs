// How the list of sheets and the bar of a sheet that is not kept look, on three screens, by day and by night.

import { boxes, layoutFile, sample } from './layouts.mjs';
import { SCREENS, looksWell } from './look.mjs';
import { story } from './story.mjs';

async function begin(page, name, layout) {
  await page.openFile(layoutFile(`${name}.json`, { ...layout, name }));
  await page.noticed(`${name}.json is open`);
  await page.saved();
}

for (const [width, height] of SCREENS) {
  for (const colorScheme of ['light', 'dark']) {
    const screen = `${width}x${height} ${colorScheme}`;
    story(`the sheets look well at ${screen}`, async (page, say) => {
      await page.open({ viewport: { width, height }, colorScheme, touch: true, reducedMotion: true });
      await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
      await page.showSheets();
      await looksWell(page, `no sheets ${screen}`, say);
      await page.closeSheets();

      await begin(page, 'Look up tonight, second try, with a name that is far longer than its line', sample('everything'));
      await begin(page, 'Tide pool', boxes([[30, 40], [70, 100]]));
      await page.closeNotice();
      await looksWell(page, `saved ${screen}`, say);
      await page.sheets(2);
      await looksWell(page, `sheets ${screen}`, say);
      await page.earlierStates('Tide pool');
      await looksWell(page, `earlier states ${screen}`, say);
      await page.withSheet('Delete', 'Tide pool');
      await page.sheets(1);
      await looksWell(page, `deleted sheet ${screen}`, say);
      await page.closeSheets();

      const second = await page.secondTab();
      await second.notSavedBar().waitFor();
      await looksWell(second, `second tab ${screen}`, say);
      await second.goTo('Press');
      await looksWell(second, `second tab press ${screen}`, say);
      await second.page.close();
    });

    story(`a full device looks well at ${screen}`, async (page, say) => {
      await page.open({ viewport: { width, height }, colorScheme, touch: true, reducedMotion: true });
      await page.until(async () => (await page.placed()) > 0, 'a sample lies on the desk');
      await page.leaveRoom(1);
      await page.openFile(layoutFile('boxes.json', boxes([[30, 40], [70, 100]])));
      await page.notSavedBar().waitFor();
      await looksWell(page, `no room ${screen}`, say);
    });
  }
}
