import { describe, expect, it } from 'vitest';
import { judgeAdvisories } from './judge-advisories.mjs';
import { judgeLock } from './judge-lock.mjs';

const allowed = { scripts: { builder: 'makes a link' }, licences: { MIT: '', 'Apache-2.0': '' } };
const sound = { license: 'MIT', integrity: 'sha512-AA==' };
const judge = (entry: object, path = 'node_modules/part') =>
  judgeLock({ packages: { '': {}, [path]: { ...sound, ...entry } } }, allowed);

describe('the lock file', () => {
  it('passes a package with integrity and a listed licence, with the address of the registry or none', () => {
    expect(judge({})).toEqual([]);
    expect(judge({ resolved: 'https://registry.npmjs.org/part/-/part-1.0.0.tgz' })).toEqual([]);
  });

  it('refuses a package without integrity, or with a weak one', () => {
    const { integrity: _, ...bare } = sound;
    const fault = ['node_modules/part: has no integrity of SHA-256 or better'];
    expect(judgeLock({ packages: { 'node_modules/part': bare } }, allowed)).toEqual(fault);
    expect(judge({ integrity: 'sha1-AA==' })).toEqual(fault);
  });

  it.each([
    'http://registry.npmjs.org/part.tgz',
    'https://registry.npmjs.org.example.net/part.tgz',
    'git+ssh://git@example.net/part.git#1',
  ])('refuses a package from %s', (resolved) => {
    expect(judge({ resolved })).toEqual([expect.stringContaining(`comes from ${resolved}`)]);
  });

  it('refuses a link to a folder', () => {
    expect(judge({ link: true, resolved: 'https://registry.npmjs.org/' })).toEqual([
      expect.stringContaining('link'),
    ]);
  });

  it('refuses a script at install, unless the package is listed by its whole name', () => {
    expect(judge({ hasInstallScript: true })).toEqual([expect.stringContaining('runs a script')]);
    expect(judge({ hasInstallScript: true }, 'node_modules/builder')).toEqual([]);
    expect(judge({ hasInstallScript: true }, 'node_modules/part/node_modules/builder')).toEqual([]);
    expect(judge({ hasInstallScript: true }, 'node_modules/@other/builder')).toHaveLength(1);
  });

  it('takes one licence of a choice, and asks for all that hold together', () => {
    expect(judge({ license: '(GPL-3.0 OR MIT)' })).toEqual([]);
    expect(judge({ license: 'MIT AND Apache-2.0' })).toEqual([]);
    expect(judge({ license: 'MIT AND GPL-3.0' })).toEqual([expect.stringContaining('MIT AND GPL-3.0')]);
    expect(judge({ license: 'constructor' })).toHaveLength(1);
  });

  it('looks into the package where the lock file names no licence, and refuses one that names none at all', () => {
    const packages = { 'node_modules/part': { integrity: sound.integrity } };
    expect(judgeLock({ packages }, allowed, () => 'MIT')).toEqual([]);
    expect(judgeLock({ packages }, allowed)).toEqual(['node_modules/part: names no licence']);
  });

  it.each([
    'git+https://example.net/a.git',
    'file:../a',
    'https://example.net/a.tgz',
    'somebody/a',
    'somebody/a#v1',
    'github:somebody/a',
  ])('refuses a dependency that is taken from %s', (range) => {
    expect(judge({ dependencies: { a: range } })).toEqual([`node_modules/part: takes a from ${range}`]);
  });

  it.each(['^1.2.3', '>=1 <3', '1.x || 2.x', '*', 'latest', 'npm:other@^2.0.0', 'npm:@scope/other@^2.0.0'])(
    'passes a dependency on %s',
    (range) => {
      expect(judge({ dependencies: { a: range } })).toEqual([]);
    },
  );

  it('does not pass a lock file that names nothing', () => {
    expect(judgeLock({ packages: { '': {} } }, allowed)).toEqual(['the lock file names no package']);
  });
});

describe('advisories', () => {
  const GHSA = 'GHSA-aaaa-bbbb-cccc';
  const advisory = (severity: string) => ({
    source: 1,
    name: 'part',
    title: 'Reads too far',
    url: `https://github.com/advisories/${GHSA}`,
    severity,
  });
  const report = (severity: string) => ({
    auditReportVersion: 2,
    vulnerabilities: {
      part: { name: 'part', severity, via: [advisory(severity)] },
      user: { name: 'user', severity, via: ['part'] },
    },
  });
  const today = '2026-03-04';

  it.each(['moderate', 'high', 'critical', 'unheard-of'])(
    'fails once on an advisory that is %s',
    (severity) => {
      const { faults, absent } = judgeAdvisories(report(severity), {}, today);
      expect(faults).toEqual([`part: ${severity}, ${GHSA}, Reads too far`]);
      expect(absent).toBeNull();
    },
  );

  it.each(['info', 'low'])('passes one that is %s', (severity) => {
    expect(judgeAdvisories(report(severity), {}, today).faults).toEqual([]);
  });

  it('passes an accepted one up to its last day, and fails from the next on', () => {
    const accepted = { [GHSA]: { reason: 'we never call it', until: today } };
    expect(judgeAdvisories(report('high'), accepted, today).faults).toEqual([]);
    expect(judgeAdvisories(report('high'), accepted, '2026-03-05').faults).toEqual([
      expect.stringContaining('accepted until 2026-03-04 only'),
    ]);
  });

  it('tells a registry without the service and a missing network from faults', () => {
    const refused = {
      message: '405 Method Not Allowed - POST',
      statusCode: 405,
      error: { summary: '', detail: '' },
    };
    expect(judgeAdvisories(refused, {}, today)).toEqual({ faults: [], absent: refused.message });
    const offline = { error: { code: 'ENOTFOUND', summary: 'getaddrinfo ENOTFOUND' } };
    expect(judgeAdvisories(offline, {}, today).absent).toBe('getaddrinfo ENOTFOUND');
  });

  it('fails where npm could not audit for another reason', () => {
    const { faults } = judgeAdvisories(
      { error: { code: 'ENOLOCK', summary: 'needs a lock file' } },
      {},
      today,
    );
    expect(faults).toEqual(['npm audit failed: needs a lock file']);
  });
});
