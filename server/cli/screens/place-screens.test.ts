import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { placeScreens } from './place-screens.ts';

const folder = makeTemporaryFolder();
const place = join(folder, 'web/dist');
const build = (name: string): string => {
  const built = join(folder, name);
  mkdirSync(join(built, 'assets'), { recursive: true });
  for (const file of ['index.html', 'assets/one.js']) writeFileSync(join(built, file), name);
  return built;
};
const contents = () => ['index.html', 'assets/one.js'].map((file) => readFileSync(join(place, file), 'utf8'));

it('makes the place, and then takes it over with nothing of before left', async () => {
  await placeScreens(build('first'), place);
  expect(contents()).toEqual(['first', 'first']);
  writeFileSync(join(place, 'assets/old.js'), '');
  await placeScreens(build('second'), place);
  expect(contents()).toEqual(['second', 'second']);
  expect(readdirSync(join(place, 'assets'))).toEqual(['one.js']);
  expect(readdirSync(folder)).toEqual(['web']);
});

it('leaves one of several that come at once, whole', async () => {
  const names = Array.from({ length: 8 }, (_, i) => `at-once-${i}`);
  await Promise.all(names.map((name) => placeScreens(build(name), place)));
  const [page, script] = contents();
  expect(names).toContain(page);
  expect(script).toBe(page);
  expect(readdirSync(folder)).toEqual(['web']);
});
