const LEVELS = ['info', 'low', 'moderate', 'high', 'critical'];
const WORTH_FAILING = LEVELS.indexOf('moderate');
const NOT_OFFERED = new Set([404, 405, 501]);
const NO_NETWORK =
  /^(ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ENETUNREACH|EHOSTUNREACH|ETIMEDOUT|ERR_SOCKET_TIMEOUT|FETCH_ERROR)$/;

/**
 * What `npm audit --json` says, judged: `faults` to fail on, or `absent`, why there was no answer.
 * @param {any} report
 * @param {Record<string, {reason: string, until: string}>} accepted by advisory, with the last day on which it is accepted
 * @param {string} today such as 2026-03-04
 */
export function judgeAdvisories(report, accepted, today) {
  if (report?.vulnerabilities === undefined) return judgeFailure(report);
  const advisories = Object.values(report.vulnerabilities).flatMap(({ name, severity, via }) =>
    via.filter((cause) => typeof cause === 'object').map((cause) => ({ severity, ...cause, name })),
  );
  const faults = advisories
    .filter(({ severity }) => !(LEVELS.indexOf(severity) >= 0 && LEVELS.indexOf(severity) < WORTH_FAILING))
    .flatMap((advisory) => judgeAdvisory(advisory, accepted, today));
  return { faults, absent: null };
}

function judgeAdvisory({ name, severity, title, url, source }, accepted, today) {
  const id =
    String(url ?? '')
      .split('/')
      .at(-1) || String(source);
  const what = `${name}: ${severity}, ${id}, ${title}`;
  const acceptance = Object.hasOwn(accepted, id) ? accepted[id] : undefined;
  if (acceptance === undefined) return [what];
  return today <= acceptance.until ? [] : [`${what}; was accepted until ${acceptance.until} only`];
}

/** No service and no network are told; any other failure, such as a lock file that does not fit, is a fault. */
function judgeFailure(report) {
  const { statusCode, error, message } = report ?? {};
  const said = message ?? error?.summary ?? 'npm audit gave no answer that can be read';
  const absent =
    NOT_OFFERED.has(statusCode) ||
    statusCode >= 500 ||
    NO_NETWORK.test(error?.code ?? '') ||
    /network|ENOTFOUND|ECONNREFUSED/.test(said);
  return absent ? { faults: [], absent: said } : { faults: [`npm audit failed: ${said}`], absent: null };
}
