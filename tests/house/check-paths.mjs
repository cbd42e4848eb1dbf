// Every path that a document names, in backticks or as a link, must exist.
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const LEFT_OUT = new Set(['node_modules', '.git', 'data', 'dist', '.cache']);
/** Made at run time or by a build; a document may name them. */
const MADE_LATER = /^(data|web\/dist|node_modules|demo-fleet\/truth|\.cache)(\/|$)/;
const ENDINGS = /\.(ts|tsx|mjs|js|md|json|css|html|yml|yaml|sql|png|svg|csv|ndjson|txt)$/;

/** @param {string} text @returns {string[]} paths that the text names, as it names them */
export function pathsIn(text) {
  const withoutBlocks = text.replace(/^(```|~~~)[\s\S]*?^\1/gm, '');
  const links = [...withoutBlocks.matchAll(/\]\(([^)\s]+)\)/g)].map((match) => match[1] ?? '');
  const ticks = [...withoutBlocks.matchAll(/`([^`\n]+)`/g)].map((match) => match[1] ?? '');
  return [
    ...links.filter((link) => !/^([a-z]+:|#)/i.test(link)).map((link) => link.replace(/#.*$/, '')),
    ...ticks.filter(looksLikePath),
  ];
}

/**
 * A folder ends in a slash or has one within; a file ends in a usual ending. Calls, routes, globs, sample names and
 * package names are not paths of the checkout.
 * @param {string} text
 */
function looksLikePath(text) {
  if (!/^[\w.][\w./-]*$/.test(text) || /^\.\d/.test(text)) return false;
  return ENDINGS.test(text) || /^[\w.-]+(\/[\w.-]+)*\/$/.test(text);
}

/** @param {string} root @returns {string[]} `document: path` for each path that is not there */
export function findLostPaths(root) {
  return listDocuments(root).flatMap((file) =>
    pathsIn(readFileSync(file, 'utf8'))
      .filter((path) => !exists(root, dirname(file), path))
      .map((path) => `${relative(root, file)}: ${path}`),
  );
}

/** A path is meant from the root, from the document's folder, or, as a bare name, from anywhere below that folder. */
function exists(root, folder, path) {
  if (MADE_LATER.test(relative(root, resolve(folder, path))) || MADE_LATER.test(path)) return true;
  if (existsSync(join(root, path)) || existsSync(join(folder, path))) return true;
  return folder !== root && !path.includes('/') && below(folder).some((file) => file.endsWith(`/${path}`));
}

/** @param {string} root */
function listDocuments(root) {
  const documents = below(root).filter((file) => file.endsWith('.md'));
  const isWanted = (path) => /^(README|DEVELOPERS)\.md$|^docs\/|(^|\/)README\.md$/.test(path);
  return documents.filter((file) => isWanted(relative(root, file)));
}

/** @param {string} folder @returns {string[]} */
function below(folder) {
  return readdirSync(folder)
    .filter((name) => !LEFT_OUT.has(name))
    .flatMap((name) => {
      const path = join(folder, name);
      return statSync(path).isDirectory() ? below(path) : [path];
    });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const lost = findLostPaths(fileURLToPath(new URL('../..', import.meta.url)));
  for (const line of lost) console.error(`names a path that is not there: ${line}`);
  process.exitCode = lost.length === 0 ? 0 : 1;
}
