// Chromium, started the same way for every story.

import { accessSync, constants } from 'node:fs';
import { chromium } from 'playwright-core';

/** Where distributions put Chromium, and where its relatives live. */
const WELL_KNOWN = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** Nothing but the page under test may reach out, and nothing may ask questions. */
const SWITCHES = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** The browser's program: the one that STICKLEAF_CHROMIUM names, else the first well-known one that is there. */
function program() {
  if (process.env.STICKLEAF_CHROMIUM) {
    return process.env.STICKLEAF_CHROMIUM;
  }
  const found = WELL_KNOWN.find((path) => {
    try {
      accessSync(path, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
  if (!found) {
    throw new Error('there is no Chromium on this machine: install it, or let STICKLEAF_CHROMIUM name its program');
  }
  return found;
}

/** How every browser is started: without a window. */
const HOW = { headless: true, chromiumSandbox: false, args: SWITCHES };

/** A new browser whose windows are private ones. */
export function launch() {
  return chromium.launch({ ...HOW, executablePath: program() });
}

/** A new browser whose only window is no private one; its profile is new, and goes when it is closed. */
export function launchWithProfile(how) {
  return chromium.launchPersistentContext('', { ...HOW, ...how, executablePath: program() });
}
