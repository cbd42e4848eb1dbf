import type { FleetLivesReply } from '#server/contract/lives.ts';
import type { PictureSource } from '#web/screens/analysis/figure-props.ts';
import { RatioPart } from '#web/screens/analysis/ratio-part.tsx';
import parts from '#web/ui/parts.module.css';
import styles from './lives.module.css';

interface Props {
  reply: FleetLivesReply;
  source: PictureSource;
}

/** What goes with failing sooner. */
export function ExposuresPart({ reply: { cox, declined, confidence }, source }: Props) {
  if (cox !== null)
    return (
      <RatioPart
        cox={cox}
        confidence={confidence}
        source={source}
        who="converters"
        caution="Exposures go together, hot fluid with load and hills, and two that are much the same can turn each other round: the figures say what goes with failing, not what causes it."
      />
    );
  return (
    <section className={parts.told}>
      <h2>Exposures that go with failing</h2>
      <p className={styles.soft}>
        {declined.cox === undefined || declined.cox.reason === 'no covariates'
          ? 'Too few converters to tell: four in five must have an exposure, and each exposure takes five that failed.'
          : `Cannot be told: ${declined.cox.reason}. Needed: ${declined.cox.needed}; there: ${declined.cox.got}.`}
      </p>
    </section>
  );
}
