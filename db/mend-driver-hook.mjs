/**
 * Corrects what the `postgres` driver (3.4.9) does when a connection goes away at a bad moment, as it is loaded. Where a
 * later version reads differently, nothing is changed.
 */
const DRIVER = /\/postgres\/(src|cjs\/src)\/(connection|index)\.js$/;

/** What is found, and what stands there instead. @type {[string, string][]} */
export const CORRECTIONS = [
  // A query on a connection that is gone, such as the rollback of a transaction whose server restarted, throws where
  // nobody can catch it, and ends the process. Reported upstream, and open there.
  [
    'if (terminated)\n      return queryError(',
    `if (socket === null) {
      queryError(q, Errors.connection('CONNECTION_CLOSED', options))
      return true
    }

    if (terminated)
      return queryError(`,
  ],
  // A write still waiting then leaves the connection mute after it has been made again. Likewise reported.
  [
    'clearImmediate(nextWriteTimer)\n    socket.',
    'clearImmediate(nextWriteTimer)\n    chunk = nextWriteTimer = null\n    socket.',
  ],
  // So does a query that was asked between the error of a connection and its end: it is never refused, and taken for
  // the one that the new connection answers.
  [
    "!hadError && (query || sent.length) && error(Errors.connection('CONNECTION_CLOSED', options, socket))",
    `if (query || sent.length || initial)
      error(Errors.connection('CONNECTION_CLOSED', options, socket))
    query = results = errorResponse = null
    result = new Result()
    rows = 0`,
  ],
  // Where connections are accepted and ended at once, as by a proxy before a server that is away, it asks for ever,
  // without a pause. Several hosts are still tried in turn.
  [
    'if (initial)\n      return reconnect()\n',
    'if (initial && options.host.length > 1)\n      return reconnect()\n',
  ],
  // The question for the array types, asked of a new connection, fails where nobody listens.
  ['return fetchArrayTypes()', 'return fetchArrayTypes().catch(error)'],
  // A COPY whose last rows the server declines never ends.
  [
    'stream && (stream.destroy(err), stream = null)\n    query &&',
    'stream && (stream.destroy(err), stream = null)\n    final && (final(err), final = null)\n    query &&',
  ],
  // A connection whose reader was slower than a COPY out of the database stays paused after its end, for ever.
  [
    'stream && stream.push(null)\n    stream = null\n',
    'stream && stream.push(null)\n    stream = null\n    socket.resume()\n',
  ],
  // What a transaction asks after its connection was lost goes out on that connection made again, into whoever's
  // transaction is there.
  ['let savepoints = 0\n', 'let savepoints = 0\n      , lost = null\n'],
  [
    'connection.onclose = reject)',
    `connection.onclose = error => {
          lost = error
          while (queries.length) queries.shift().reject(error)
          reject(error)
        })`,
  ],
  [
    'q.catch(e => uncaughtError || (uncaughtError = e))\n',
    `q.catch(e => uncaughtError || (uncaughtError = e))
        if (lost) return q.reject(lost)
`,
  ],
];

/** @type {import('node:module').LoadHook} */
export async function load(url, context, nextLoad) {
  const loaded = await nextLoad(url, context);
  if (!DRIVER.test(url) || !loaded.source) return loaded;
  // A thread may have inherited this hook beside its own.
  const mended = CORRECTIONS.reduce(
    (text, [from, to]) => (text.includes(to) ? text : text.replace(from, to)),
    String(loaded.source),
  );
  return { ...loaded, source: mended };
}
