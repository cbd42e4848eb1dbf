const REGISTRY = 'https://registry.npmjs.org/';
/** A version, range or tag that a registry answers; git, file, link and web addresses are not. */
const FROM_REGISTRY = /^(npm:)?[^:/]+(\/[^:/]+)?$/;
const OWN_REPOSITORY = /^[\w.-]+\/[\w.-]+(#.*)?$/;

/**
 * What is wrong with a lock file of npm, one sentence each. An entry without an address comes from the registry that npm
 * is set to; its integrity says what has to come.
 * @param {{packages: Record<string, any>}} lock
 * @param {{scripts: Record<string, string>, licences: Record<string, string>}} allowed by package name and SPDX name, with reasons
 * @param {(path: string) => string | undefined} readLicence for packages whose entry has none
 */
export function judgeLock(lock, allowed, readLicence = () => undefined) {
  const entries = Object.entries(lock.packages ?? {}).filter(([path]) => path !== '');
  const faults = entries.flatMap(([path, entry]) => [
    ...judgeOrigin(path, entry),
    ...judgeScripts(path, entry, allowed.scripts),
    ...judgeLicence(path, entry.license ?? readLicence(path), allowed.licences),
  ]);
  const wanted = Object.entries(lock.packages ?? {}).flatMap(([path, entry]) => judgeWanted(path, entry));
  return entries.length === 0 ? ['the lock file names no package'] : [...faults, ...wanted];
}

function judgeOrigin(path, { link, integrity, resolved }) {
  if (link === true) return [`${path}: is a link to a folder`];
  const faults = [];
  if (!/^sha(256|384|512)-/.test(integrity ?? ''))
    faults.push(`${path}: has no integrity of SHA-256 or better`);
  if (resolved !== undefined && !String(resolved).startsWith(REGISTRY))
    faults.push(`${path}: comes from ${resolved}, not from ${REGISTRY}`);
  return faults;
}

function judgeScripts(path, { hasInstallScript }, scripts) {
  if (hasInstallScript !== true || nameOf(path) in scripts) return [];
  return [`${path}: runs a script when it is installed, and no reason is listed`];
}

function judgeLicence(path, licence, licences) {
  if (licence === undefined) return [`${path}: names no licence`];
  return isAllowed(String(licence), licences)
    ? []
    : [`${path}: has the licence ${licence}, which is not listed`];
}

/** SPDX: OR leaves the choice, AND asks for both and binds tighter. Nested brackets are left to a person. */
function isAllowed(licence, licences) {
  const plain = licence.replace(/^\(([^()]*)\)$/, '$1');
  return plain
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every((name) => Object.hasOwn(licences, name.trim())));
}

function judgeWanted(path, entry) {
  const wanted = { ...entry.dependencies, ...entry.devDependencies, ...entry.optionalDependencies };
  return Object.entries(wanted)
    .filter(([, range]) => !isFromRegistry(String(range)))
    .map(([name, range]) => `${path === '' ? 'package.json' : path}: takes ${name} from ${range}`);
}

function isFromRegistry(range) {
  if (range.startsWith('npm:')) return FROM_REGISTRY.test(range.replace(/^npm:@?/, 'npm:'));
  return FROM_REGISTRY.test(range) && !OWN_REPOSITORY.test(range);
}

const nameOf = (path) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
