/** Installs the pinned packages when node_modules is missing or differs from package-lock.json. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');

/**
 * Says why the installed packages do not match the lock, or undefined when they do.
 * A package the lock marks optional (made for another platform) may be absent.
 *
 * @param {string} root - the project's folder
 * @returns {string | undefined}
 */
export function staleReason(root) {
  const installedList = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installedList)) return 'packages are not installed yet';
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const installed = JSON.parse(readFileSync(installedList, 'utf8')).packages;
  for (const [path, entry] of Object.entries(wanted)) {
    if (path === '') continue;
    const have = installed[path];
    if (have === undefined) {
      if (entry.optional === true || entry.peer === true) continue;
      return `${path} is missing`;
    }
    if (have.version !== entry.version) {
      return `${path} is ${have.version}; the lock asks for ${entry.version}`;
    }
  }
  return undefined;
}

function main() {
  const major = Number(process.versions.node.split('.')[0]);
  if (major < 20) {
    process.stderr.write(
      `Soakbook needs Node 20 or later; this is Node ${process.versions.node}.\n`,
    );
    return 1;
  }
  const reason = staleReason(ROOT);
  if (reason === undefined) return 0;
  process.stderr.write(`Installing the pinned packages (${reason}) …\n`);
  const npm = process.env.npm_execpath;
  const run =
    npm === undefined
      ? spawnSync('npm', ['ci'], { cwd: ROOT, stdio: ['ignore', 2, 2], shell: true })
      : spawnSync(process.execPath, [npm, 'ci'], { cwd: ROOT, stdio: ['ignore', 2, 2] });
  if (run.status !== 0) {
    process.stderr.write('npm ci did not finish. Check the network connection and run it again.\n');
    return 1;
  }
  return 0;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = main();
