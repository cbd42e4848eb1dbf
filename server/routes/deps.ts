import type { Metrics } from '#server/metrics.ts';
import type { PacketPrinter } from '#server/packet-pdf/create-packet-printer.ts';
import type { AssessmentWorker } from '#server/services/assessment/create-worker.ts';
import type { Context as ServiceContext } from '#server/services/context.ts';
import type { SignedIn } from '#server/services/people/find-person.ts';
import type { PeopleDesk } from '#server/services/people/people-desk.ts';
import type { ReplayDesk } from '#server/services/replay/replay-desk.ts';
import type { PreviewDesk } from '#server/services/settings/preview-desk.ts';
import type { UpkeepLimits } from '#server/services/storage/upkeep-limits.ts';

/** What every `createXRoutes` is given. */
export interface RouteDeps {
  context: ServiceContext;
  assessment: AssessmentWorker;
  metrics: Metrics;
  people: PeopleDesk;
  previews: PreviewDesk;
  replays: Pick<ReplayDesk, 'nudge'>;
  printer: Pick<PacketPrinter, 'print'>;
  /** whether a mail server is set; none where left out */
  canMail?: boolean;
  /** how long things are kept; all for ever where left out */
  upkeepLimits?: UpkeepLimits;
  /** of a body as it arrives and after gunzip */
  maxBodyBytes: number;
  /** for how long nothing of a delivery may come */
  bodyIdleMs: number;
}

/** What the middleware leaves for a handler: `c.var.context` is the service context of this request. */
export interface RequestEnv {
  Variables: {
    requestId: string;
    context: ServiceContext;
    /** whether somebody was found who asks; else the actor is nobody in particular */
    known: boolean;
    /** the session that the request's cookie named */
    signedIn: SignedIn | null;
  };
}
