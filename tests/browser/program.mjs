// The command line program, beside the page.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** Runs `stickleaf` with these words. It may have to be compiled first. */
export function stickleaf(...words) {
  const program = ['run', '--release', '--quiet', '--package', 'stickleaf', '--'];
  execFileSync('cargo', [...program, ...words].map(String), { cwd: ROOT, stdio: 'pipe' });
}

/** Does something with a folder that is there only meanwhile; `at` gives the path of a file in it. */
export function inFolder(deed) {
  const folder = mkdtempSync(join(tmpdir(), 'stickleaf-'));
  try {
    return deed((name) => join(folder, name));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The same with something that takes its time. */
export async function inFolderAsync(deed) {
  const folder = mkdtempSync(join(tmpdir(), 'stickleaf-'));
  try {
    return await deed((name) => join(folder, name));
  } finally {
    rmSync(folder, { recursive: true });
  }
}
