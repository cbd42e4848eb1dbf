/**
 * Puts modules of `left-out/` in the place of the engine's, so that the evaluation can tell what a part is worth:
 * `npm run evaluate -- --without <part>`. A module there may import the one it stands for.
 */
export const parts = {
  movement: { 'platform/estimate-common-movement.ts': 'no-movement.ts' },
  weighting: { 'stretches/weigh-reading.ts': 'even-weights.ts' },
  shrinkage: {
    'conditions/fit-condition-effects.ts': 'own-effects.ts',
    'wear/learn-wear.ts': 'unlearned-wear.ts',
  },
  acceleration: { 'wear/wear-model.ts': 'even-wear.ts' },
};

/** @type {Record<string, string>} */
let replaced = {};

/** @param {keyof typeof parts} part */
export function initialize(part) {
  replaced = parts[part];
}

/** @type {import('node:module').ResolveHook} */
export async function resolve(specifier, context, nextResolve) {
  const found = await nextResolve(specifier, context);
  if (context.parentURL?.includes('/tests/evaluate/left-out/')) return found;
  const [path = ''] = found.url.split('?');
  const name = Object.keys(replaced).find((module) => path.endsWith(`/server/engine/${module}`));
  if (name === undefined) return found;
  return { ...found, url: new URL(`./left-out/${replaced[name]}`, import.meta.url).href };
}
