// Runs the stories, two files of them side by side: node tests/browser/run.mjs [WORD]...
// With words, only the stories whose file names hold one of them. STICKLEAF_URL says where the page is.

import { readdirSync } from 'node:fs';
import { run } from 'node:test';
import { spec, tap } from 'node:test/reporters';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('.', import.meta.url));
const words = process.argv.slice(2);
const files = readdirSync(folder)
  .filter((file) => file.endsWith('.story.mjs'))
  .filter((file) => words.length === 0 || words.some((word) => file.includes(word)))
  .sort()
  .map((file) => folder + file);

if (files.length === 0) {
  console.error(`no story's file name holds ${words.join(' or ')}`);
  process.exit(1);
}

// Most of a story is waiting: for a worker, for a frame, for what the page promises to do within a second.
const stories = run({ files, concurrency: 2 });
stories.on('test:fail', () => {
  process.exitCode = 1;
});
stories.compose(process.stdout.isTTY ? new spec() : tap).pipe(process.stdout);
