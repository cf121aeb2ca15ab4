// The page as an artist sees it: things are found by role and label, and done by verbs.

import { mkdirSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { launchWithProfile } from './browser.mjs';
import { handsOn } from './hands.mjs';
import { WORDS } from './words.mjs';

/** How much room the desk leaves round the sheet when the whole sheet is shown, in CSS pixels. */
const ROOM_ROUND_SHEET = 28;

/** Pictures of the page and files it wrote; looked at by people, never committed. */
const OUTPUT = fileURLToPath(new URL('../output/', import.meta.url));

/** A tablet held sideways. */
const TABLET = { width: 1180, height: 820 };

/** How long a control gets to appear and to be ready, unless a story says otherwise. */
const PATIENCE_MS = 30_000;

const CRASHED = 'the page crashed';

/** One artist's visit to the page. */
export class StickleafPage {
  /** What the page did wrong on the way: errors on the console, uncaught ones, calls to other hosts. */
  complaints = [];

  constructor(browser) {
    this.browser = browser;
  }

  // Coming and going

  /**
   * Opens the page in a window of its own, with nothing stored from before.
   *
   * @param {object} how `url` (else STICKLEAF_URL), `viewport` in CSS pixels, `colorScheme` 'light' or 'dark',
   *   `touch` true for a touch screen, `reducedMotion` true for people who want things to keep still,
   *   `locale` what the browser prefers to read, `processors` how many of them the browser says there are, `isFirstVisit` true to be shown round first, `beforeStart` a script that runs before the page's own,
   *   `serviceWorkers` 'allow' if the page may keep a copy of itself; else each visit gets it from the host,
   *   `hasProfile` true for a browser that remembers, which alone installs pages; else the window is a private one
   */
  async open(how) {
    await this.openBlank(how);
    await this.page.goto(this.url);
  }

  /** As `open`, but the window is still empty, so that the visit itself can be measured. */
  async openBlank({
    url = process.env.STICKLEAF_URL, viewport = TABLET, colorScheme = 'light', touch = false, reducedMotion = false,
    processors, beforeStart, serviceWorkers = 'block', locale = 'en-GB', isFirstVisit = false,
    hasProfile = false,
  } = {}) {
    if (!url) {
      throw new Error('STICKLEAF_URL says where the page is: run `cargo xtask serve` and set it to what that prints');
    }
    await this.close();
    const how = {
      viewport, colorScheme, hasTouch: touch, acceptDownloads: true, locale,
      reducedMotion: reducedMotion ? 'reduce' : 'no-preference', serviceWorkers,
    };
    this.context = hasProfile ? await launchWithProfile(how) : await this.browser.newContext(how);
    this.context.setDefaultTimeout(PATIENCE_MS);
    this.url = url;
    if (!isFirstVisit) {
      await this.context.addInitScript(() => {
        // An empty window has no storage.
        try { localStorage.setItem('stickleaf.tour', 'seen'); } catch {}
      });
    }
    await this.#newTab();
    if (processors) {
      await this.page.addInitScript((count) => {
        Object.defineProperty(Navigator.prototype, 'hardwareConcurrency', { get: () => count });
      }, processors);
    }
    if (beforeStart) {
      await this.page.addInitScript(beforeStart);
    }
  }

  /** Sets the browser's own text size, as a multiple of the usual 16 px. */
  async textSize(times) {
    await this.session.send('Page.setFontSizes', { fontSizes: { standard: 16 * times, fixed: 13 * times } });
  }

  async reload() {
    await this.page.reload();
  }

  /** The page once more, in another tab of the same browser: what is stored is shared. */
  async secondTab() {
    const other = new StickleafPage(this.browser);
    Object.assign(other, { context: this.context, url: this.url });
    await other.#newTab();
    await other.page.goto(this.url);
    return other;
  }

  /** The tab dies without a chance to do anything, and the artist opens the page again. */
  async dieAndComeBack() {
    const dead = new Promise((resolve) => this.page.once('crash', resolve));
    this.session.send('Page.crash').catch(() => {});
    await dead;
    await this.page.close();
    const complaints = this.complaints.filter((complaint) => complaint !== CRASHED);
    await this.#newTab();
    this.complaints.push(...complaints);
    await this.page.goto(this.url);
  }

  /**
   * Leaves this much room on the device, in bytes; as much as there is without a number. The browser may go by what it
   * found last about the room for half a minute after something was stored.
   */
  async leaveRoom(bytes) {
    const { origin } = new URL(this.url);
    await this.session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: bytes });
  }

  /** Puts the restored sheet away, as the page offers after a reload. */
  async startFresh() {
    await this.#button(WORDS.startFresh).click();
  }

  /** Goes over to the newer version that the page offers. */
  async useNewerVersion() {
    await this.#button(WORDS.useNewer).click();
  }

  /** The versions of the page that are kept on this device. */
  keptCopies() {
    return this.page.evaluate(async () => (await caches.keys()).map((name) => name.split(' ').at(-1)));
  }

  /** Opens the page in a second window of the same browser. */
  async anotherWindow() {
    const other = await this.context.newPage();
    await other.goto(this.page.url());
    return other;
  }

  async close() {
    await this.context?.close();
    this.context = undefined;
  }

  title() {
    return this.page.title();
  }

  /** Goes to the Desk, Compare, Press or Month. */
  async goTo(place) {
    const named = (role) => this.page.getByRole(role, { name: place, exact: true });
    await named('tab').or(named('link')).or(named('button')).first().click();
  }

  // Art and files

  /** Brings a picture in: a path, or `{name, mimeType, buffer}`. What was found waits in a dialog. */
  async importPicture(picture) {
    await this.#choose(this.#button(WORDS.bringArtIn), picture);
  }

  /** Opens a layout or placement file: a path, or `{name, mimeType, buffer}`. */
  async openFile(file) {
    await this.#openMenu();
    await this.#choose(this.#button(WORDS.open), file);
  }

  async openSample(name) {
    await this.#openMenu();
    await this.#button(WORDS.sample).click();
    await this.#button(name).click();
    await this.until(async () => (await this.nameOfLayout()) === name, `the sample ${name} is open`);
  }

  nameOfLayout() {
    return this.page.getByRole('textbox', { name: 'Name of this layout' }).inputValue();
  }

  /** The dialog that shows what was found in a picture. */
  importDialog() {
    return this.page.getByRole('dialog', { name: WORDS.importTitle });
  }

  /** Waits until the dialog says how many drawings it found, and gives that line. */
  async drawingsFound({ seconds = 60 } = {}) {
    const line = this.importDialog().getByText(/drawings? found/);
    await line.waitFor({ timeout: seconds * 1000 });
    return (await line.innerText()).trim();
  }

  async addDrawings() {
    await this.importDialog().getByRole('button', { name: WORDS.addStickers }).click();
    await this.importDialog().waitFor({ state: 'hidden' });
  }

  async cancelImport() {
    await this.importDialog().getByRole('button', { name: WORDS.cancel, exact: true }).click();
    await this.importDialog().waitFor({ state: 'hidden' });
  }

  /** Drops a file from the desktop on the middle of the page, as the system's own drag does. */
  async dropPicture(path) {
    const { width, height } = this.page.viewportSize();
    const data = { items: [], files: [resolve(path)], dragOperationsMask: 1 };
    for (const type of ['dragEnter', 'dragOver', 'drop']) {
      await this.session.send('Input.dispatchDragEvent', { type, x: width / 2, y: height / 2, data });
    }
  }

  /** Saves the placement file from the Press and gives the path of what was saved. */
  async exportPlacement() {
    await this.goTo('Press');
    return this.#download(this.#button(WORDS.placementFile));
  }

  /** Saves the table from the Press and gives the path of what was saved. */
  async exportTable() {
    await this.goTo('Press');
    return this.#download(this.#button(WORDS.saveTable));
  }

  /** Saves the layout from the Press and gives the path of what was saved. */
  async exportLayout() {
    await this.goTo('Press');
    return this.#download(this.#button(WORDS.layoutFile));
  }

  /** Begins to make the composed sheet in the Press. */
  async beginSheet() {
    await this.#button(WORDS.makeSheet).click();
  }

  /** Waits until the sheet can be made: nothing is on its way. */
  async sheetCanBeMade() {
    await this.#button(WORDS.makeSheet).waitFor();
  }

  /** Makes the composed sheet in the Press, its edge as this word says, and gives the path of what was saved. */
  async makeSheet({ bleed, seconds }) {
    await this.goTo('Press');
    await this.page.getByRole('group', { name: WORDS.bleed }).getByRole('button', { name: bleed }).click();
    return this.#download(this.#button(WORDS.makeSheet), { seconds });
  }

  /** Makes the guide without these parts, by their words, and gives the path of what was saved. */
  async makeGuide({ without, seconds }) {
    await this.goTo('Press');
    for (const part of without) {
      await this.page.getByRole('group', { name: WORDS.guideShows }).getByRole('button', { name: part }).click();
    }
    return this.#download(this.#button(WORDS.makeGuide), { seconds });
  }

  /** Makes the page on stock of this name, for whom this word says, and gives the path of what was saved. */
  async makePrint({ stock, who, seconds }) {
    await this.goTo('Press');
    await this.page.getByRole('group', { name: WORDS.pageSize }).getByRole('button', { name: stock, exact: true }).click();
    await this.page.getByRole('group', { name: WORDS.whoPrints }).getByRole('button', { name: who }).click();
    return this.#download(this.#button(WORDS.makePrint), { seconds });
  }

  /** Makes the cut lines of what and of which depth these words say, or as it was chosen, and gives the path of what was saved. */
  async makeCut({ of, lines, seconds }) {
    await this.goTo('Press');
    for (const [group, word] of [[WORDS.cutOf, of], [WORDS.cutLines, lines]].filter(([, word]) => word)) {
      await this.page.getByRole('group', { name: group, exact: true }).getByRole('button', { name: word, exact: true }).click();
    }
    return this.#download(this.#button(WORDS.makeCut), { seconds });
  }

  /** Makes the pages that the sheets of a run share, and gives the path of what was saved. */
  async makePages({ seconds }) {
    return this.#download(this.#button(WORDS.makePages), { seconds });
  }

  /** Makes the cut lines of one of them. */
  async makeCutOfPage(number, { seconds }) {
    return this.#download(this.page.getByRole('button', { name: `Make the cut lines of page ${number}` }), { seconds });
  }

  /** Makes the colour strip in the Press, and gives the path of what was saved. */
  async makeStrip({ seconds }) {
    await this.goTo('Press');
    return this.#download(this.#button(WORDS.makeStrip), { seconds });
  }

  /** Chooses the patch of the colour strip in this column and row. */
  async choosePatch(column, row) {
    await this.goTo('Press');
    for (const [group, digit] of [[WORDS.stripColumn, column], [WORDS.stripRow, row]]) {
      await this.page.getByRole('group', { name: group }).getByRole('button', { name: String(digit), exact: true }).click();
    }
  }

  /** Which patch is chosen: column and row. */
  async chosenPatch() {
    const digit = (group) => this.page.getByRole('group', { name: group }).getByRole('button', { pressed: true }).innerText();
    return [Number(await digit(WORDS.stripColumn)), Number(await digit(WORDS.stripRow))];
  }

  /** The main colours of the sheet as they are shown: each as drawn, and as it goes to the printer. */
  async swatches() {
    const colours = await this.page.locator('.swatch > span').evaluateAll((halves) => halves.map((half) => getComputedStyle(half).backgroundColor));
    return colours.filter((_, i) => i % 2 === 0).map((drawn, i) => [drawn, colours[2 * i + 1]]);
  }

  /** Saves everything in one file from the Press, and gives its path. */
  async saveBundle() {
    await this.goTo('Press');
    return this.#download(this.#button(WORDS.saveBundle));
  }

  // Runs

  /** Saves the figures of the shop, and gives the path of the file. */
  async saveShop() {
    return this.#download(this.#button(WORDS.saveShop));
  }

  /** Opens figures of a shop from a file. */
  async openShop(file) {
    await this.#choose(this.#button(WORDS.openShop), file);
  }

  /** Types something into the field of this name, and takes it. */
  async type(field, text) {
    const box = this.page.getByRole('textbox', { name: field, exact: true });
    await box.fill(text);
    await box.press('Enter');
  }

  /** Why the field of this name does not take what was typed. */
  async troubleAt(field) {
    const box = this.page.locator('label.field', { has: this.page.getByRole('textbox', { name: field, exact: true }) });
    return (await box.getByRole('alert').innerText()).trim();
  }

  /** What stands beside this word among the sums of a run. */
  async sum(word) {
    return (await this.page.locator(`.sums dt:text-is("${word}") + dd`).innerText()).trim();
  }

  async measureInk({ seconds }) {
    await this.#button(WORDS.measureInk).click();
    await this.page.locator('.sums').getByText('magenta').waitFor({ timeout: 1000 * seconds });
  }

  /** The rows of the cost of a run. */
  async costs() {
    const rows = await this.page.locator('.costs tbody tr').all();
    return Promise.all(rows.map(async (row) => (await row.locator('th, td').allInnerTexts()).map((text) => text.trim())));
  }

  /** Ticks a task off, or takes the tick away. */
  async tick(task) {
    await this.page.getByRole('checkbox', { name: task }).click();
  }

  /** Slides to this value. */
  async slide(word, value) {
    await this.#slider(word).fill(String(value));
  }

  /** Slides with a finger from where the slider is to this share of its length. */
  async slideByTouch(word, share) {
    const slider = this.#slider(word);
    await slider.scrollIntoViewIfNeeded();
    const { x, y, width, height } = await slider.boundingBox();
    const [least, most, value] = await slider.evaluate(({ min, max, value }) => [min, max, value].map(Number));
    const at = (part) => ({ x: x + 8 + (width - 16) * part, y: y + height / 2 });
    await this.touchDrag(at((value - least) / (most - least)), at(share));
  }

  /** Puts the keyboard on a slider and presses these keys. */
  async slideByKeys(word, ...keys) {
    await this.#slider(word).focus();
    for (const key of keys) {
      await this.page.keyboard.press(key);
    }
  }

  /** What a slider says. */
  async slid(word) {
    return this.#slider(word).getAttribute('aria-valuetext');
  }

  /** A row of what a run would come to: now, then, and the difference. */
  async outcome(word) {
    const row = this.page.locator('.outcome tbody tr', { has: this.page.getByRole('rowheader', { name: word, exact: true }) });
    return (await row.getByRole('cell').allInnerTexts()).map((text) => text.trim());
  }

  /** Takes what was found into the shop's figures. */
  async takeIntoFigures() {
    await this.#button(WORDS.takeIntoFigures).click();
  }

  /** Notes how long it took to cut this part of so many sheets like the one on the desk. */
  async noteJob({ part, sheets, time }) {
    await this.page.getByRole('group', { name: WORDS.whatWasCut }).getByRole('button', { name: part, exact: true }).click();
    await this.type(WORDS.sheetsCut, String(sheets));
    await this.type(WORDS.timeTaken, time);
    await this.#button(WORDS.noteJob).click();
  }

  /** The jobs that are noted, a line each. */
  async timedJobs() {
    return (await this.page.locator('.timed-jobs li > span').allInnerTexts()).map((text) => text.trim());
  }

  /** Leaves the first of the noted jobs out. */
  async leaveJobOut() {
    await this.#button(WORDS.leaveOut).first().click();
  }

  /** What the noted jobs come to. */
  async machineFound() {
    return (await this.page.locator('.timed').getByRole('status').innerText()).trim();
  }

  /** Takes all ticks away, for another run. */
  async beginListAgain() {
    await this.#button(WORDS.tasksAgain).click();
  }

  /** Begins another sheet with the same card, rules and zones. */
  async beginSheetLikeThis() {
    await this.#button(WORDS.sheetLikeThis).click();
  }

  /** Takes back what the page has just said that it did. */
  async takeBack() {
    await this.page.locator('.notice').getByRole('button', { name: WORDS.takeBack }).click();
  }

  /** What a field of this name holds. */
  async typed(field) {
    return this.page.getByRole('textbox', { name: field, exact: true }).inputValue();
  }

  /** The tasks that are ticked off. */
  async ticked() {
    const tasks = await this.page.locator('.task', { has: this.page.locator('input:checked') }).allInnerTexts();
    return tasks.map((text) => text.trim());
  }

  // What is kept on the device

  /** How safe the work is, in the page's words; an empty text if there is nothing to keep. */
  async saveState() {
    return (await this.page.locator('.save-mark').innerText()).trim();
  }

  /** Waits until all is on the device. */
  async saved({ seconds = 10 } = {}) {
    await this.until(async () => (await this.saveState()) === 'Saved on this device', 'all is saved', { seconds });
  }

  /** The bar that stays as long as nothing is kept. */
  notSavedBar() {
    return this.page.getByRole('region', { name: WORDS.saveState });
  }

  /** Opens the list of sheets and gives it. */
  async showSheets() {
    const dialog = this.page.getByRole('dialog', { name: WORDS.mySheets });
    if (!(await dialog.isVisible())) {
      // The bar of a sheet that is not kept has such a button too.
      await this.#button(WORDS.mySheets).first().click();
      await dialog.waitFor();
    }
    return dialog;
  }

  /** The names of the sheets in the list, in its order, once there are so many. */
  async sheets(count) {
    const dialog = await this.showSheets();
    const names = dialog.getByRole('list', { name: WORDS.mySheets }).locator('.sheet-facts > strong');
    await this.until(async () => (await names.count()) === count, `there are ${count} sheets`);
    return names.allInnerTexts();
  }

  /** Does something with a sheet of the list: 'Rename', 'Duplicate', 'Delete', 'Earlier states'. */
  async withSheet(deed, name) {
    const dialog = await this.showSheets();
    await dialog.getByRole('button', { name: `${deed}: ${name}`, exact: true }).first().click();
  }

  /** Puts a sheet of the list on the desk. */
  async openSheet(name) {
    const dialog = await this.showSheets();
    await dialog.getByRole('button', { name: `Open ${name}`, exact: true }).first().click();
    await dialog.waitFor({ state: 'hidden' });
  }

  /** Waits for a notice in the list of sheets. */
  async noticedInSheets(pattern) {
    const dialog = await this.showSheets();
    await dialog.locator('.notice-text').filter({ hasText: pattern }).waitFor();
  }

  async closeSheets() {
    const dialog = await this.showSheets();
    await dialog.locator('.dialog-buttons').getByRole('button', { name: WORDS.close, exact: true }).click();
    await dialog.waitFor({ state: 'hidden' });
  }

  /** The earlier states of a sheet, once there are some: the lines of the list. */
  async earlierStates(name) {
    await this.withSheet('Earlier states', name);
    const lines = this.page.getByRole('list', { name: WORDS.earlierStates }).getByRole('listitem');
    await lines.first().waitFor();
    return lines;
  }

  // Zones

  /** Takes the tool that draws a zone; the next drag on the sheet is one. */
  async drawZone() {
    await this.showPanel(WORDS.background);
    await this.#button(WORDS.drawZone).click();
  }

  /** The names of the zones. */
  async zones() {
    await this.showPanel(WORDS.background);
    const names = this.page.getByRole('list', { name: WORDS.zones, exact: true }).locator('.zone-name input');
    return names.evaluateAll((fields) => fields.map((field) => field.value));
  }

  /** The button in the list of zones that takes one into the hand on the sheet. */
  async #zoneButton(name) {
    await this.showPanel(WORDS.background);
    return this.#button(`Change ${name} on the sheet`);
  }

  /** Chooses a zone in the list. */
  async chooseZone(name) {
    const button = await this.#zoneButton(name);
    if ((await button.getAttribute('aria-pressed')) !== 'true') {
      await button.click();
    }
  }

  /** The fields of a chosen zone: where it lies and how large it is, as the page writes them. */
  async zoneBounds(name) {
    await this.chooseZone(name);
    const field = (label) => this.page.locator('.zone-bounds').getByLabel(label, { exact: true }).inputValue();
    return { x: await field('x'), y: await field('y'), width: await field('Width'), height: await field('Height') };
  }

  /** Types a number of a zone: 'x', 'y', 'Width', 'Height'. */
  async typeZone(name, label, typed) {
    await this.chooseZone(name);
    const field = this.page.locator('.zone-bounds').getByLabel(label, { exact: true });
    await field.fill(typed);
    await field.press('Enter');
  }

  /** Presses a button of the bar that a chosen zone has. */
  async tapInZone(name, button) {
    await this.page.getByRole('toolbar', { name: `Zone ${name}`, exact: true })
      .getByRole('button', { name: button, exact: true }).click();
  }

  /** Gives the page a picture whose drawn parts become zones. */
  async zonesFrom(picture) {
    await this.showPanel(WORDS.background);
    await this.#choose(this.#button('Zones from a picture'), picture);
  }

  /** Sets how much of the picture behind is seen, in per cent. */
  async setOpacity(percent) {
    await this.showPanel(WORDS.background);
    await this.page.getByLabel('Opacity').fill(String(percent));
  }

  /** How much of the picture behind is seen, as the page says it; null if there is none. */
  async opacity() {
    await this.showPanel(WORDS.background);
    const slider = this.page.locator('.slider-value');
    return (await slider.isVisible()) ? slider.innerText() : null;
  }

  /** Gives the sheet the focus, for keys. */
  async focusSheet() {
    await this.page.getByRole('application', { name: 'Sheet' }).focus();
  }

  // Background styles

  #styles() {
    return this.page.getByRole('list', { name: WORDS.background, exact: true }).locator('.style');
  }

  /** The names of the styles, in order, the one without any first. */
  async styles() {
    await this.showPanel(WORDS.background);
    return this.#styles().locator('.style-name').allInnerTexts();
  }

  /** The name of the style in force. */
  async chosenStyle() {
    await this.showPanel(WORDS.background);
    return this.page.locator('.style[aria-pressed="true"] .style-name').innerText();
  }

  /** Gives the chosen style another name. */
  async renameStyle(name) {
    await this.showPanel(WORDS.background);
    const field = this.page.getByLabel('Name of this style', { exact: true });
    await field.fill(name);
    await field.press('Enter');
  }

  /** Presses a button of the chosen style, such as 'Duplicate this style'. */
  async styleTool(name) {
    await this.showPanel(WORDS.background);
    await this.#button(name).click();
  }

  // Roughing in

  /** Takes the tool that draws a blob; every closed line on the sheet is one until `stopDrawing`. */
  async drawBlob() {
    await this.page.getByRole('region', { name: WORDS.stickers, exact: true })
      .getByRole('button', { name: WORDS.drawBlob }).click();
  }

  async stopDrawing() {
    await this.#button(WORDS.stopDrawing).click();
  }

  /** The dialog with plain shapes. */
  roughDialog() {
    return this.page.getByRole('dialog', { name: WORDS.roughIn });
  }

  async openShapes() {
    await this.page.getByRole('region', { name: WORDS.stickers, exact: true })
      .getByRole('button', { name: WORDS.roughIn }).click();
    await this.roughDialog().waitFor();
  }

  /** Picks a plain shape; what is not given stays as the dialog proposes it. Lengths as they are typed. */
  async roughIn({ shape, width, height, count, isExact }) {
    const dialog = this.roughDialog();
    await this.openShapes();
    await dialog.getByRole('button', { name: shape, exact: true }).click();
    for (const [label, value] of [['Width', width], ['Height', height], [WORDS.howMany, count]]) {
      if (value !== undefined) {
        await dialog.getByRole('textbox', { name: label, exact: true }).fill(String(value));
      }
    }
    if (isExact) {
      await dialog.getByRole('button', { name: WORDS.exactly, exact: true }).click();
    }
    await dialog.getByRole('button', { name: WORDS.putOnSheet }).click();
  }

  /** Opens the panel of a sticker. */
  async openSticker(name) {
    await this.page.getByRole('button', { name: `Details of ${name}`, exact: true }).click();
  }

  /** From a sticker's open panel: chooses the picture with the art that takes its place. */
  async replaceByArt(picture) {
    await this.#choose(this.#button(WORDS.replaceByArt), picture);
  }

  /** The dialog that shows the drawings of which one takes the sticker's place. */
  replaceDialog() {
    return this.page.getByRole('dialog', { name: /^Replace .* by art$/ });
  }

  // The empty room

  /** Shows the empty room if it is not shown, and waits until it was looked for; gives the sentence about it. */
  async showEmptyRoom({ seconds = 20 } = {}) {
    await this.showPanel(WORDS.findings);
    const button = this.#button(WORDS.showEmptyRoom);
    if ((await button.getAttribute('aria-pressed')) !== 'true') {
      await button.click();
    }
    const sentence = this.page.getByRole('region', { name: WORDS.emptyRoom }).getByRole('status');
    await this.until(async () => / fits?[;,. ]/.test(await sentence.innerText()), 'the empty room is found', { seconds });
    return (await sentence.innerText()).trim();
  }

  async hideEmptyRoom() {
    await this.showPanel(WORDS.findings);
    await this.#button(WORDS.showEmptyRoom).click();
  }

  /** The dots that would fit: `{diameter, x, y}` in mm. */
  async roomDots() {
    const lines = this.page.getByRole('list', { name: WORDS.roomDots }).getByRole('button');
    return (await lines.allInnerTexts()).map((text) => {
      const [, diameter, x, y] = /Dot of (\S+) mm\s+(\S+), (\S+) mm/.exec(text);
      return { diameter: Number(diameter), x: Number(x), y: Number(y) };
    });
  }

  /** The stickers that would fit, in words; those that can be put there are buttons as well. */
  async roomStickers() {
    const region = this.page.getByRole('region', { name: WORDS.emptyRoom });
    const more = region.locator('details:not([open]) > summary');
    if (await more.isVisible()) {
      await more.click();
    }
    const lines = region.locator(`ul:not([aria-label="${WORDS.roomDots}"])`).getByRole('listitem');
    return (await lines.allInnerTexts()).map((text) => text.trim());
  }

  /** Puts something that would fit on the sheet: a dot by its place in the list, a sticker by its line. */
  async putDot(number) {
    await this.page.getByRole('list', { name: WORDS.roomDots }).getByRole('button').nth(number).click();
  }

  async putSticker(line) {
    await this.page.getByRole('list', { name: WORDS.roomStickers }).getByRole('button', { name: line }).click();
  }

  // Packing

  async setWanted(sticker, count) {
    const field = this.stickers().filter({ hasText: sticker }).getByLabel(WORDS.wanted);
    await field.fill(String(count));
    await field.press('Enter');
  }

  async fillSheet() {
    await this.#button(WORDS.fill).click();
  }

  async placeThese() {
    await this.#button(WORDS.place).click();
  }

  /** Packs in one of the other ways: 'grow', 'even' or 'shorten'. */
  async packToward(aim) {
    await this.#button(WORDS.moreWays).click();
    await this.page.getByRole('list', { name: WORDS.moreWays }).getByRole('button', { name: WORDS[aim] }).click();
  }

  /** Opens the list of more ways to pack. */
  async showMoreWays() {
    await this.#button(WORDS.moreWays).click();
    await this.page.getByRole('list', { name: WORDS.moreWays }).waitFor();
  }

  /** Asks for packing that ends after so many rounds and can be done again. */
  async packRepeatably({ rounds, seed }) {
    await this.#howToPack();
    await this.page.getByRole('checkbox', { name: WORDS.repeatable }).check();
    await this.#fillIn(WORDS.rounds, rounds);
    await this.#fillIn(WORDS.seed, seed);
  }

  /** Asks for packing that starts from a seed and goes on until it is stopped. */
  async packUntilStopped({ seed }) {
    await this.#howToPack();
    await this.page.getByRole('checkbox', { name: WORDS.repeatable }).uncheck();
    await this.#fillIn(WORDS.seed, seed);
  }

  async stop() {
    await this.#button(WORDS.stop).click();
  }

  /** The line that tells how far packing is, such as "23 placed · at most 27 · … · 4 s". */
  async progress() {
    return (await this.page.getByRole('region', { name: WORDS.packing }).innerText()).trim();
  }

  /** Waits until nothing is being packed any more. */
  async packed({ seconds = 60 } = {}) {
    await this.#button(WORDS.stop).waitFor({ state: 'hidden', timeout: seconds * 1000 });
  }

  async undo() {
    await this.#button(WORDS.undo).click();
  }

  async redo() {
    await this.#button(WORDS.redo).click();
  }

  // Comparing

  /** Chooses what variants differ in: 'Backgrounds', 'Spacing', 'Border' or 'Sheet size'. */
  async compareBy(subject) {
    await this.#button(subject).click();
  }

  /** Chooses something of a row of buttons on Compare, such as '5 s' or 'Place these'. */
  async compareWith(choice) {
    await this.page.getByRole('region', { name: WORDS.whatToCompare }).getByRole('button', { name: choice, exact: true }).click();
  }

  /** What can be compared, each with whether it will be: `{name, isWanted}`. */
  async offered(subject) {
    const chips = this.page.getByRole('group', { name: subject, exact: true }).getByRole('button');
    return chips.evaluateAll((buttons) => buttons.map((button) => ({
      name: button.innerText.trim(), isWanted: button.getAttribute('aria-pressed') === 'true',
    })));
  }

  async startComparing() {
    await this.#button(WORDS.startComparing).click();
  }

  async compareAgain() {
    await this.#button(WORDS.compareAgain).click();
  }

  /** The line that tells how far a comparison is, such as "40 % done · 12 s left". */
  async comparingProgress() {
    return (await this.page.getByRole('region', { name: WORDS.comparing }).innerText()).trim();
  }

  /** Waits until nothing is compared any more. */
  async compared({ seconds = 60 } = {}) {
    await this.#button(WORDS.stop).waitFor({ state: 'hidden', timeout: seconds * 1000 });
  }

  /** Every variant: `{name, text, placed, atMost, dense, gap, isEarlier}`; figures that are not there yet are not a number. */
  async variants() {
    const items = this.page.getByRole('list', { name: WORDS.variants }).getByRole('listitem');
    const texts = await items.evaluateAll((cards) => cards.map((card) => ({
      name: card.querySelector('h3').innerText.trim(), text: card.innerText.replace(/\s+/g, ' ').trim(),
    })));
    return texts.map(({ name, text }) => {
      const figure = (pattern) => Number(pattern.exec(text)?.[1]);
      return {
        name,
        text,
        placed: figure(/(\d+)(?: of \d+)? placed/),
        atMost: figure(/at most (\d+)/),
        dense: figure(/Density (\d+) %/),
        gap: figure(/Smallest gap between cut lines (\S+) mm/),
        isEarlier: text.includes('earlier state'),
      };
    });
  }

  /** The pixels of a variant's picture, as a text that differs if they do. */
  async variantPicture(name) {
    const picture = this.page.getByRole('img', { name: `The sheet with ${name}`, exact: true });
    return (await picture.screenshot()).toString('base64');
  }

  /** Taps the button that puts a variant on the desk. */
  async putOnDesk(name) {
    await this.page.getByRole('button', { name: `${WORDS.putOnDesk}: ${name}`, exact: true }).tap();
  }

  /** Saves the picture or the table of a comparison and gives the path of what was saved. */
  async saveComparisonPicture() {
    return this.#download(this.#button(WORDS.savePicture));
  }

  async saveComparisonTable() {
    return this.#download(this.#button(WORDS.saveTable));
  }

  // What is to be seen

  /** The tally's text, such as "23 placed · at most 27 · …". */
  async tally() {
    const text = await this.page.getByRole('status', { name: WORDS.tally }).innerText();
    return text.replace(/\s+/g, ' ').trim();
  }

  /** How many pieces the tally counts. */
  async placed() {
    return Number(/^(\d+) placed/.exec(await this.tally())[1]);
  }

  /** The label of what has the focus, or else its text. */
  focused() {
    return this.page.evaluate(() => {
      const { activeElement: element } = document;
      return element.getAttribute('aria-label') ?? element.innerText.trim();
    });
  }

  /** What the page has to say at the moment, good or bad; an empty text if nothing. */
  async notice() {
    return (await this.page.locator('.notice-text').allInnerTexts()).join(' ').trim();
  }

  /** Where the notice is on the page, in CSS pixels. */
  noticeBox() {
    return this.page.locator('.notice').boundingBox();
  }

  /** Closes the notice, if there is one; good news goes by itself, the rest waits for this. */
  async closeNotice() {
    const close = this.page.locator('.notice').getByRole('button', { name: WORDS.close, exact: true });
    if (await close.isVisible()) {
      await close.click();
    }
  }

  /** Waits for a notice that matches, and gives it. */
  async noticed(pattern, { seconds = 10 } = {}) {
    const text = this.page.locator('.notice-text').filter({ hasText: pattern });
    await text.waitFor({ timeout: seconds * 1000 });
    return (await text.innerText()).trim();
  }

  /** The sentence of each finding. */
  async findings() {
    const entries = this.page.getByRole('list', { name: WORDS.findings }).getByRole('listitem');
    return (await entries.allInnerTexts()).map((text) => text.trim());
  }

  /** The entries of the list of stickers. */
  stickers() {
    return this.page.getByRole('list', { name: WORDS.stickers, exact: true }).getByRole('listitem');
  }

  /** The small pictures of the list of stickers, each as the address of its pixels, once they do not change any more. */
  async smallPictures() {
    const looks = () => this.stickers().locator('img.thumbnail').evaluateAll((pictures) => pictures.map((picture) => {
      const canvas = Object.assign(document.createElement('canvas'), { width: picture.naturalWidth, height: picture.naturalHeight });
      if (canvas.width > 0) canvas.getContext('2d').drawImage(picture, 0, 0);
      return canvas.toDataURL();
    }));
    let before;
    let now = await looks();
    do {
      before = now;
      await this.page.waitForTimeout(300);
      now = await looks();
    } while (JSON.stringify(now) !== JSON.stringify(before));
    return now;
  }

  /** The canvas that shows the sheet. */
  sheet() {
    const named = (role) => this.page.getByRole(role, { name: WORDS.sheet });
    return named('application').or(named('img')).first();
  }

  /** The pixels of the canvas, as a text that differs if they do. */
  async picture() {
    return (await this.sheet().screenshot()).toString('base64');
  }

  /** The size that the panel of the sheet says, in mm. */
  async sheetSize() {
    await this.showPanel(WORDS.sheet);
    const field = (label) => this.page.getByRole('textbox', { name: label }).inputValue();
    const [width, height] = [await field(/^Width/), await field(/^Height/)];
    return { width: Number.parseFloat(width), height: Number.parseFloat(height) };
  }

  /** Every piece with its place on the sheet: `{name, x, y, turn, isBroken}`, in mm and degrees. */
  async pieces() {
    const list = this.page.getByRole('list', { name: WORDS.pieces });
    await this.showPanel(WORDS.findings);
    // A drawer that opens makes the list anew, closed.
    const summary = this.page.locator('details:not([open]) > summary').filter({ hasText: /^\d+ pieces?$/ });
    await this.until(async () => {
      if (await summary.isVisible()) {
        await summary.click();
      }
      return list.isVisible();
    }, 'the list of pieces is shown');
    const lines = await list.getByRole('listitem').evaluateAll((items) => items.map((item) => ({
      name: item.querySelector('.piece-name').textContent,
      place: item.querySelector('.piece-place').textContent,
    })));
    return lines.map(({ name, place }) => {
      const [, x, y, turn] = /^(\S+), (\S+) mm(?: · (\S+)°)?/.exec(place);
      return { name, x: Number(x), y: Number(y), turn: Number(turn ?? 0), isBroken: place.includes('breaks a rule') };
    });
  }

  /** Shows one of the panels beside the desk, if it is not shown already. */
  async showPanel(name) {
    const tab = this.page.getByRole('group', { name: 'Panels' }).getByRole('button', { name: new RegExp(`^${name}`) });
    const isShown = (await tab.getAttribute('aria-pressed')) === 'true';
    if (!isShown || !(await this.page.getByRole('complementary', { name: 'Panels' }).isVisible())) {
      await tab.click();
    }
  }

  /** Closes the drawer that the panels are on a narrow page; beside the desk there is nothing to close. */
  async closePanel() {
    const close = this.page.getByRole('complementary', { name: 'Panels' }).getByRole('button', { name: WORDS.close });
    if (await close.isVisible()) {
      await close.click();
      await close.waitFor({ state: 'hidden' });
    }
  }

  /** Shows the whole sheet, and gives what turns its millimetres into points of the page. */
  async wholeSheet() {
    // A narrow page has no such button, and shows the whole sheet until it is pinched.
    if (await this.#button(WORDS.wholeSheet).isVisible()) {
      await this.#button(WORDS.wholeSheet).click();
    }
    const about = await this.sheet().getAttribute('aria-description');
    const [width, height] = /^(\S+) mm by (\S+) mm/.exec(about).slice(1).map(Number);
    const box = await this.sheet().boundingBox();
    const fit = (room, length) => (room - 2 * ROOM_ROUND_SHEET) / length;
    const scale = Math.min(fit(box.width, width), fit(box.height, height));
    const corner = {
      x: box.x + (box.width - width * scale) / 2,
      y: box.y + (box.height - height * scale) / 2,
    };
    return { scale, at: ({ x, y }) => ({ x: corner.x + x * scale, y: corner.y + y * scale }) };
  }

  /** Whether a finger at this point would touch the canvas, and nothing that lies over it. */
  isOnCanvas({ x, y }) {
    return this.sheet().evaluate((canvas, [left, top]) => document.elementFromPoint(left, top) === canvas, [x, y]);
  }

  /** What the hand bar says is chosen; an empty text if nothing is. */
  async chosen() {
    const title = this.#hand().locator('.hand-title');
    // A narrow page has no room for the name, but it is still there for those who listen.
    return (await title.allTextContents()).join(' ').trim();
  }

  /** Taps a button of the hand bar. */
  async tapInHand(name) {
    await this.#hand().getByRole('button', { name, exact: true }).click();
  }

  /** How far the hand goes at once, as the hand bar says it. */
  step() {
    return this.#hand().getByRole('button', { name: WORDS.step }).getAttribute('aria-label');
  }

  /** Goes to the next step of the hand. */
  async nextStep() {
    await this.#hand().getByRole('button', { name: WORDS.step }).click();
  }

  /** Turns one of the habits of the hand on or off. A piece must be chosen. */
  async switchHabit(name) {
    const numbers = this.#hand().getByRole('button', { name: WORDS.numbers });
    if ((await numbers.getAttribute('aria-expanded')) === 'false') {
      await numbers.click();
    }
    await this.#hand().getByRole('switch', { name }).click();
    await numbers.click();
  }

  #hand() {
    return this.page.getByRole('toolbar', { name: WORDS.hand });
  }

  /** The point of the canvas at these parts of its width and height, for a hand to go to. */
  async onSheet(partOfWidth, partOfHeight) {
    const box = await this.sheet().boundingBox();
    return { x: box.x + box.width * partOfWidth, y: box.y + box.height * partOfHeight };
  }

  /** What an automatic reading against WCAG 2.2 AA finds, one line each. It sees nothing inside the canvas. */
  async accessibilityFindings() {
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
    const { violations } = await new AxeBuilder({ page: this.page }).withTags(tags).analyze();
    return violations.flatMap(({ id, help, nodes }) => nodes.map((node) => `${id}: ${help}: ${node.target.join(' ')}`));
  }

  /** How wide the page's content is, and how much room the screen gives it, in CSS pixels. */
  width() {
    return this.page.evaluate(() => ({ content: document.scrollingElement.scrollWidth, room: window.innerWidth }));
  }

  /** The parts of the page that hold more than they show, and are not meant to be scrolled that way. */
  tooFull() {
    const parts = this.page.locator('.top, .tally-row, .panel-body, .tray-head, .actions, .press-side, .compare-setup, .variant, .dialog, .hand');
    return parts.evaluateAll((elements) => elements
      .filter((element) => element.checkVisibility({ visibilityProperty: true }))
      .filter((element) => element.scrollWidth > element.clientWidth
        || (element.matches('.tally-row') && element.firstElementChild.offsetHeight > element.clientHeight))
      .map((element) => `${element.className}: ${element.scrollWidth} x ${element.scrollHeight} px in `
        + `${element.clientWidth} x ${element.clientHeight} px`));
  }

  /** What can be pressed and is in sight, with its size in CSS pixels: `{label, width, height}`. */
  async targets() {
    const pressed = this.page.locator('button, summary, a[href], input, label.check');
    return pressed.evaluateAll((elements) => elements.filter((element) => (
      element.checkVisibility({ visibilityProperty: true, opacityProperty: true })
        // A box that stands in a label is pressed by the label, and what lies under a dialog cannot be pressed.
        && !(element.type === 'checkbox' && element.closest('label'))
        && (!document.querySelector('dialog[open]') || element.closest('dialog[open]'))
    )).map((element) => {
      const { width, height } = element.getBoundingClientRect();
      return { label: element.getAttribute('aria-label') ?? element.innerText.trim(), width, height };
    }));
  }

  /** Waits until nothing moves any more and two frames have been drawn. */
  async still() {
    await this.page.evaluate(async () => {
      await document.fonts.ready;
      await Promise.all(document.getAnimations().map((animation) => animation.finished.catch(() => {})));
      await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
    });
  }

  /** Keeps a picture of the page under this name, and gives its path. */
  async screenshot(name) {
    const path = this.#outputPath(`${name}.png`);
    await this.page.screenshot({ path });
    return path;
  }

  /** Waits until something is so; if it never is, the story fails with what should have been. */
  async until(isSo, what, { seconds = 10 } = {}) {
    const end = Date.now() + seconds * 1000;
    while (!(await isSo())) {
      if (Date.now() > end) {
        throw new Error(`after ${seconds} s it is still not so that ${what}`);
      }
      await this.page.waitForTimeout(50);
    }
  }

  // The hand

  /** A finger touches at one point, drags to another, and stays down until `lift`. */
  async touchAndHold(from, to) {
    await this.hands.touchAndHold(from, to);
  }

  async lift() {
    await this.hands.lift();
  }

  async touchDrag(from, to, how) {
    await this.hands.touchDrag(from, to, how);
  }

  async touchPath(points) {
    await this.hands.touchPath(points);
  }

  /** Another finger comes down beside the one that is held, and both are lifted. */
  async secondFinger(held, other) {
    await this.hands.secondFinger(held, other);
  }

  async penPath(points, how) {
    await this.hands.penPath(points, how);
  }

  async penDrag(from, to, how) {
    await this.hands.penDrag(from, to, how);
  }

  async pinch(centre, fromPx, toPx, how) {
    await this.hands.pinch(centre, fromPx, toPx, how);
  }

  async tap(...points) {
    await this.hands.tap(...points);
  }

  async doubleTap(point) {
    await this.hands.doubleTap(point);
  }

  async longPress(point, how) {
    await this.hands.longPress(point, how);
  }

  async twoFingers(from, to, how) {
    await this.hands.twoFingers(from, to, how);
  }

  /** The menu of what can be done, once it is open. */
  async choices() {
    const menu = this.page.getByRole('menu');
    await menu.waitFor();
    return menu;
  }

  /** Takes a choice of the open menu. */
  async choose(name) {
    const menu = await this.choices();
    await menu.getByRole('menuitem', { name, exact: true }).tap();
    await menu.waitFor({ state: 'hidden' });
  }

  async press(keys) {
    await this.page.keyboard.press(keys);
  }

  // Within

  #slider(word) {
    return this.page.getByRole('slider', { name: word, exact: true });
  }

  #button(name) {
    return this.page.getByRole('button', { name, exact: true });
  }

  /** Opens the fields that say how to pack, if they are not open. */
  async #howToPack() {
    if (!(await this.page.getByRole('checkbox', { name: WORDS.repeatable }).isVisible())) {
      await this.showMoreWays();
      await this.#button(WORDS.howToPack).click();
    }
  }

  async #fillIn(label, value) {
    const field = this.page.getByRole('textbox', { name: label, exact: true });
    await field.fill(String(value));
    await field.press('Enter');
  }

  /** On a narrow page what is rarely needed is behind a button. */
  async #openMenu() {
    const more = this.#button(WORDS.more);
    await more.or(this.#button(WORDS.open)).first().waitFor();
    if (!(await this.#button(WORDS.open).isVisible()) && (await more.isVisible())) {
      await more.click();
    }
  }

  async #choose(button, file) {
    const [chooser] = await Promise.all([this.page.waitForEvent('filechooser'), button.click()]);
    await chooser.setFiles(file);
  }

  async #download(button, { seconds = 30 } = {}) {
    const [download] = await Promise.all([this.page.waitForEvent('download', { timeout: 1000 * seconds }), button.click()]);
    const path = this.#outputPath(basename(download.suggestedFilename()));
    await download.saveAs(path);
    return path;
  }

  #outputPath(name) {
    mkdirSync(OUTPUT, { recursive: true });
    return join(OUTPUT, name);
  }

  async #newTab() {
    this.page = await this.context.newPage();
    this.#listenForComplaints(new URL(this.url).origin);
    this.session = await this.context.newCDPSession(this.page);
    this.hands = handsOn(this.session);
  }

  #listenForComplaints(origin) {
    this.complaints = [];
    this.page.on('pageerror', (error) => this.complaints.push(`uncaught: ${error.message}`));
    this.page.on('crash', () => this.complaints.push(CRASHED));
    this.page.on('console', (message) => {
      if (message.type() === 'error') {
        this.complaints.push(`console: ${message.text()} (${message.location().url})`);
      }
    });
    this.context.on('request', (request) => {
      const url = new URL(request.url());
      if (url.protocol.startsWith('http') && url.origin !== origin) {
        this.complaints.push(`call to another host: ${url}`);
      }
    });
  }
}
