// The page as an artist sees it: things are found by role and label, and done by verbs. When the page's words
// change, they change here, and the stories stay as they are.

import { mkdirSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import { handsOn } from './hands.mjs';

/** What the page calls its controls. */
const WORDS = {
  bringArtIn: 'Bring art in',
  open: 'Open',
  fill: 'Fill the sheet',
  place: 'Place these',
  stop: 'Stop',
  undo: 'Undo',
  redo: 'Redo',
  tally: 'Tally',
  findings: 'Findings',
  stickers: 'Stickers',
  sheet: 'Sheet',
  wanted: 'Wanted',
  placementFile: /placement/i,
};

/** Pictures of the page and files it wrote; looked at by people, never committed. */
const OUTPUT = fileURLToPath(new URL('../output/', import.meta.url));

/** A tablet held sideways. */
const TABLET = { width: 1180, height: 820 };

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
   *   `touch` true for a touch screen, `reducedMotion` true for people who want things to keep still
   */
  async open({ url = process.env.STICKLEAF_URL, viewport = TABLET, colorScheme = 'light', touch = false, reducedMotion = false } = {}) {
    if (!url) {
      throw new Error('STICKLEAF_URL says where the page is: run `cargo xtask serve` and set it to what that prints');
    }
    await this.close();
    this.context = await this.browser.newContext({
      viewport, colorScheme, hasTouch: touch, acceptDownloads: true, locale: 'en-GB',
      reducedMotion: reducedMotion ? 'reduce' : 'no-preference',
    });
    this.page = await this.context.newPage();
    this.#listenForComplaints(new URL(url).origin);
    this.session = await this.context.newCDPSession(this.page);
    this.hands = handsOn(this.session);
    await this.page.goto(url);
  }

  async reload() {
    await this.page.reload();
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

  async importPicture(path) {
    await this.#choose(this.#button(WORDS.bringArtIn), path);
  }

  async openFile(path) {
    await this.#choose(this.#button(WORDS.open), path);
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
    return this.#download(this.page.getByRole('button', { name: WORDS.placementFile }));
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

  async stop() {
    await this.#button(WORDS.stop).click();
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

  // What is to be seen

  /** The tally's text, such as "23 placed · at most 27 · …". */
  async tally() {
    return (await this.page.getByRole('status', { name: WORDS.tally }).innerText()).trim();
  }

  /** The sentence of each finding. */
  async findings() {
    const entries = this.page.getByRole('list', { name: WORDS.findings }).getByRole('listitem');
    return (await entries.allInnerTexts()).map((text) => text.trim());
  }

  /** The entries of the list of stickers. */
  stickers() {
    return this.page.getByRole('list', { name: WORDS.stickers }).getByRole('listitem');
  }

  /** The canvas that shows the sheet. */
  sheet() {
    const named = (role) => this.page.getByRole(role, { name: WORDS.sheet });
    return named('application').or(named('img')).first();
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

  /** Keeps a picture of the page under this name, and gives its path. */
  async screenshot(name) {
    const path = this.#outputPath(`${name}.png`);
    await this.page.screenshot({ path });
    return path;
  }

  // The hand

  async touchDrag(from, to, how) {
    await this.hands.touchDrag(from, to, how);
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

  async press(keys) {
    await this.page.keyboard.press(keys);
  }

  // Within

  #button(name) {
    return this.page.getByRole('button', { name, exact: true });
  }

  async #choose(button, path) {
    const [chooser] = await Promise.all([this.page.waitForEvent('filechooser'), button.click()]);
    await chooser.setFiles(path);
  }

  async #download(button) {
    const [download] = await Promise.all([this.page.waitForEvent('download'), button.click()]);
    const path = this.#outputPath(basename(download.suggestedFilename()));
    await download.saveAs(path);
    return path;
  }

  #outputPath(name) {
    mkdirSync(OUTPUT, { recursive: true });
    return join(OUTPUT, name);
  }

  #listenForComplaints(origin) {
    this.complaints = [];
    this.page.on('pageerror', (error) => this.complaints.push(`uncaught: ${error.message}`));
    this.page.on('crash', () => this.complaints.push('the page crashed'));
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
