// A static host of the stories' own: it can be given another version of the page, and it can be gone.

import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const DIST = fileURLToPath(new URL('../../dist/', import.meta.url));

/** Below this path, so that nothing works only at the root of a host. */
const BASE = '/on/a/shelf/';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.wasm': 'application/wasm',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
};

/** A host with a copy of the page in `dist`. */
export class Host {
  /** The files that it was asked for since it came up. */
  asked = [];

  constructor() {
    this.outer = mkdtempSync(join(tmpdir(), 'stickleaf-host-'));
    this.folder = join(this.outer, 'page');
    cpSync(DIST, this.folder, { recursive: true });
  }

  /** Answers from now on; a second time at the same address as before. Gives the page's address. */
  async up() {
    this.asked = [];
    this.server = createServer((request, response) => this.#answer(request, response));
    await new Promise((done) => {
      this.server.listen(this.port ?? 0, '127.0.0.1', done);
    });
    this.port = this.server.address().port;
    return `http://127.0.0.1:${this.port}${BASE}`;
  }

  /** Answers nobody any more. */
  async down() {
    const closed = new Promise((done) => {
      this.server.close(done);
    });
    this.server.closeAllConnections();
    await closed;
  }

  /** Ends for good. */
  async end() {
    if (this.server.listening) {
      await this.down();
    }
    rmSync(this.outer, { recursive: true });
  }

  /**
   * Puts a version with another title and another worker in the place of the one that is there, as a build and an
   * upload do. Returns its title.
   */
  putVersion(number) {
    const title = `Stickleaf ${number}`;
    const [worker] = readdirSync(this.folder).filter((name) => /^search-worker-.*\.js$/.test(name));
    const newWorker = `search-worker-${number}.js`;
    this.#edit(worker, (text) => `${text}// ${number}\n`);
    renameSync(join(this.folder, worker), join(this.folder, newWorker));
    this.#edit('index.html', (text) => text.replace(worker, newWorker).replace(/<title>.*</, `<title>${title}<`));
    this.#edit('service-worker.js', (text) => this.#listed(text).replace(/BUILD = ".*"/, `BUILD = "${number}"`));
    return title;
  }

  /** Puts a file back as it was in an older version, or forgets to bring it: an upload that has come half way. */
  spoil(name) {
    this.#edit(name, (text) => `${text}\n`);
  }

  mend(name) {
    this.#edit(name, (text) => text.slice(0, -1));
  }

  /** Writes the files that are there, with their hashes, into the text of the service worker. */
  #listed(text) {
    const files = {};
    for (const name of readdirSync(this.folder, { recursive: true }).sort()) {
      if (name !== 'service-worker.js' && statSync(join(this.folder, name)).isFile()) {
        const hash = createHash('sha256').update(readFileSync(join(this.folder, name))).digest('base64');
        files[name === 'index.html' ? './' : name] = `sha256-${hash}`;
      }
    }
    return text.replace(/FILES = \{.*?\}/s, `FILES = ${JSON.stringify(files)}`);
  }

  #edit(name, change) {
    const path = join(this.folder, name);
    const [before, after] = [readFileSync(path, 'utf8'), change(readFileSync(path, 'utf8'))];
    if (after === before) {
      throw new Error(`${name} stayed as it was`);
    }
    writeFileSync(path, after);
  }

  #answer(request, response) {
    const { pathname } = new URL(request.url, 'http://host');
    const name = decodeURIComponent(pathname.slice(BASE.length)) || 'index.html';
    if (pathname.startsWith(BASE)) {
      this.asked.push(name);
    }
    try {
      if (!pathname.startsWith(BASE) || name.includes('..')) {
        throw new Error('elsewhere');
      }
      const content = readFileSync(join(this.folder, name));
      // Whatever the browser has of it afterwards is the page's own doing.
      const type = TYPES[extname(name)] ?? 'application/octet-stream';
      response.writeHead(200, { 'content-type': type, 'cache-control': 'no-store' });
      response.end(content);
    } catch {
      response.writeHead(404).end('there is no such file here\n');
    }
  }
}
