import type { Metrics } from '#server/metrics.ts';
import type { Context as ServiceContext } from '#server/services/context.ts';

/** Assessment in the background; `server/services/assessment/` makes one. */
export interface AssessmentWorker {
  /** says that there are new readings */
  nudge(): void;
  /** settles when nothing is left to assess */
  idle(): Promise<void>;
  /** finishes the vehicle in hand and stays stopped */
  stop(): Promise<void>;
}

/** What every `createXRoutes` is given. */
export interface RouteDeps {
  context: ServiceContext;
  assessment: AssessmentWorker;
  metrics: Metrics;
  /** of a body as it arrives and after gunzip */
  maxBodyBytes: number;
}

/** What the middleware leaves for a handler: `c.var.context` is the service context of this request. */
export interface RequestEnv {
  Variables: { requestId: string; context: ServiceContext };
}
