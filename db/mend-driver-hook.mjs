/**
 * Corrects what the `postgres` driver (3.4.9) does when a connection goes away at a bad moment, as it is loaded; the
 * first two are reported upstream and open there. A query on a connection that is gone, such as the rollback of a
 * transaction whose server restarted, throws where nobody can catch it and ends the process. A write still waiting
 * then leaves the connection mute after it has been made again. The question for the array types, asked of a new
 * connection, fails where nobody listens. A COPY whose last rows the server declines never ends. Where a later
 * version reads differently, nothing is changed.
 */
const DRIVER = /\/postgres\/(src|cjs\/src)\/connection\.js$/;

const CORRECTIONS = [
  [
    'if (terminated)\n      return queryError(',
    `if (socket === null) {
      queryError(q, Errors.connection('CONNECTION_CLOSED', options))
      return true
    }

    if (terminated)
      return queryError(`,
  ],
  [
    'clearImmediate(nextWriteTimer)\n    socket.',
    'clearImmediate(nextWriteTimer)\n    chunk = nextWriteTimer = null\n    socket.',
  ],
  ['return fetchArrayTypes()', 'return fetchArrayTypes().catch(error)'],
  [
    'stream && (stream.destroy(err), stream = null)\n    query &&',
    'stream && (stream.destroy(err), stream = null)\n    final && (final(err), final = null)\n    query &&',
  ],
];

/** @type {import('node:module').LoadHook} */
export async function load(url, context, nextLoad) {
  const loaded = await nextLoad(url, context);
  if (!DRIVER.test(url) || !loaded.source) return loaded;
  return { ...loaded, source: mendDriver(String(loaded.source)) };
}

/** @param {string} source */
export function mendDriver(source) {
  return CORRECTIONS.reduce((text, [from = '', to = '']) => text.replace(from, to), source);
}
