import type { FleetLivesReply } from '#server/contract/lives.ts';
import { Button } from '#web/ui/button.tsx';
import { ChoiceLine, ChoiceLines } from '#web/ui/choice-lines.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { SeveralField } from '#web/ui/several-field.tsx';
import { useMedia } from '#web/ui/use-media.ts';
import styles from './choices.module.css';
import { DayField } from './day-field.tsx';
import { isNarrowed, type LivesPatch, type LivesSearch, parseLivesSearch } from './lives-search.ts';
import { countWords, groupingWords, recordsWords, sourceWords } from './lives-words.ts';

interface Props {
  search: LivesSearch;
  choices: FleetLivesReply['choices'] | undefined;
  onChange: (patch: LivesPatch) => void;
}

const sources = Object.entries(sourceWords).map(([id, name]) => ({ id, name }));

/** What is compared, and which lives take part. */
export function LivesChoices({ search, choices, onChange }: Props) {
  const isSmall = useMedia('(max-width: 47.99rem)');
  const picks = (
    <>
      <div className={styles.picks}>
        <SeveralField
          label="Platforms"
          value={search.platform}
          options={choices?.platforms ?? []}
          onChange={(platform) => onChange({ platform })}
        />
        <SeveralField
          label="Depots"
          value={search.depot}
          options={choices?.depots ?? []}
          onChange={(depot) => onChange({ depot })}
        />
        <SeveralField
          label="Units"
          value={search.source}
          options={sources}
          onChange={(source) => onChange({ source })}
        />
        <DayField
          label="Watched from"
          value={search.from}
          min={choices?.first_day ?? undefined}
          max={choices?.last_day ?? undefined}
          onChange={(from) => onChange({ from })}
        />
        <DayField
          label="Watched to"
          value={search.to}
          min={choices?.first_day ?? undefined}
          max={choices?.last_day ?? undefined}
          onChange={(to) => onChange({ to })}
        />
        {isNarrowed(search) && (
          <Button
            kind="quiet"
            onClick={() =>
              onChange({
                platform: undefined,
                depot: undefined,
                source: undefined,
                from: undefined,
                to: undefined,
              })
            }
          >
            Show all
          </Button>
        )}
      </div>
      <details className={styles.basis}>
        <summary>
          Lives count {recordsWords[search.records ?? 'first_reading'].label};{' '}
          {countWords[search.count ?? 'failed'].said}
        </summary>
        <div className={styles.basisChoices}>
          <ChoiceLines legend="Lives count">
            {Object.entries(recordsWords).map(([value, { label, words }]) => (
              <ChoiceLine
                key={value}
                type="radio"
                name="records"
                label={label}
                words={words}
                checked={(search.records ?? 'first_reading') === value}
                onChange={() => onChange({ records: parseLivesSearch({ records: value }).records })}
              />
            ))}
          </ChoiceLines>
          <ChoiceLines legend="As failed">
            {Object.entries(countWords).map(([value, { label, words }]) => (
              <ChoiceLine
                key={value}
                type="radio"
                name="count"
                label={label}
                words={words}
                checked={(search.count ?? 'failed') === value}
                onChange={() => onChange({ count: parseLivesSearch({ count: value }).count })}
              />
            ))}
          </ChoiceLines>
        </div>
      </details>
    </>
  );
  return (
    <search className={styles.choices} aria-label="What is compared">
      <div className={styles.grouping}>
        <SelectField
          label="Compared by"
          value={search.group_by ?? ''}
          options={[
            { value: '', label: 'not compared: all together' },
            ...Object.entries(groupingWords).map(([value, label]) => ({ value, label })),
          ]}
          onChange={(value) =>
            onChange({ group_by: parseLivesSearch({ group_by: value }).group_by, of: undefined })
          }
        />
      </div>
      {isSmall ? (
        <details className={styles.more}>
          <summary>Which lives{isNarrowed(search) ? ': some' : ': all'}</summary>
          {picks}
        </details>
      ) : (
        picks
      )}
    </search>
  );
}
