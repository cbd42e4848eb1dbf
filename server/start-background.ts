import type { DeliveryReply } from './contract/receipts.ts';
import type { Metrics } from './metrics.ts';
import type { AssessmentWorker } from './services/assessment/create-worker.ts';
import type { Context } from './services/context.ts';
import { startDigestPost } from './services/digest/start-digest-post.ts';
import { createMailer } from './services/mail/create-mailer.ts';
import { readBrokerCertificate } from './services/mqtt/read-broker-certificate.ts';
import { startSubscriber } from './services/mqtt/start-subscriber.ts';
import { startUpkeep } from './services/storage/start-upkeep.ts';
import type { UpkeepLimits } from './services/storage/upkeep-limits.ts';
import { checkFolder } from './services/watched-folder/check-folder.ts';
import { startWatcher } from './services/watched-folder/start-watcher.ts';
import { startSender } from './services/webhooks/start-sender.ts';
import type { Settings } from './settings.ts';

export type Readied = Awaited<ReturnType<typeof readyBackground>>;

/** What background work needs and could be wrong in the settings, before anything is started. */
export async function readyBackground(settings: Settings) {
  return {
    mailer: settings.mail === null ? null : await createMailer(settings.mail),
    ca: await readBrokerCertificate(settings.mqtt),
    watchFolder: settings.watchFolder === null ? null : await checkFolder(settings.watchFolder),
  };
}

export const limitUpkeep = (settings: Settings): UpkeepLimits => ({
  keepReadingsMonths: settings.keepReadingsMonths,
  keepReceiptsMonths: settings.keepReceiptsMonths,
  ownServer: settings.databaseUrl === null,
});

/** What is done unasked, beside assessments and replays. Any number of processes may: each piece is done by one of them. */
export async function startBackground(
  context: Context,
  settings: Settings,
  { mailer, ca, watchFolder }: Readied,
  metrics: Metrics,
  assessment: Pick<AssessmentWorker, 'nudge'>,
): Promise<{ stop(): Promise<void> }> {
  const { publicUrl } = settings;
  const upkeep = startUpkeep(context, limitUpkeep(settings));
  const digests = mailer === null ? null : startDigestPost(context, { mailer, publicUrl });
  const sender = startSender(context, publicUrl);
  const onReply = (reply: DeliveryReply) => {
    metrics.deliveries.inc();
    for (const fate of ['stored', 'duplicate', 'refused'] as const)
      metrics.readings.inc({ fate }, reply[fate]);
    if (reply.stored > 0) assessment.nudge();
  };
  const subscriber =
    settings.mqtt === null
      ? null
      : await startSubscriber(context, {
          ...settings.mqtt,
          ca,
          limitBytes: settings.maxBodyBytes,
          onReply,
          onState: (isConnected) => metrics.mqttConnected.set(isConnected ? 1 : 0),
        });
  const watcher =
    watchFolder === null
      ? null
      : startWatcher(context, {
          folder: watchFolder,
          onTaken: (fate, reply) => {
            metrics.watchedFiles.inc({ fate });
            if (reply !== null) onReply(reply);
          },
        });
  return {
    async stop() {
      await Promise.all([upkeep.stop(), digests?.stop(), sender.stop(), subscriber?.stop(), watcher?.stop()]);
    },
  };
}
