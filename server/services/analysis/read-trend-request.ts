import { type TrendRequest, trendRequest } from '#server/contract/analysis.ts';
import { parseAnalysisBody } from './parse-analysis-body.ts';
import { listFaults, refuseFaults } from './refuse-faults.ts';

/** Reads the body of a request for a trend; what is wrong with it as a whole is an error. */
export function readTrendRequest(body: string): TrendRequest {
  const parsed = trendRequest.safeParse(
    parseAnalysisBody(body, {
      example: '{"x": [...], "y": [...]}',
      leaveOut: 'leave such points out of both x and y',
    }),
  );
  if (parsed.success) return parsed.data;
  const faults = listFaults(parsed.error);
  throw refuseFaults('series', faults, faults.length);
}
