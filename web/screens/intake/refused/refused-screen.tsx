import { getRouteApi } from '@tanstack/react-router';
import { useEffect } from 'react';
import { lineStates } from '#server/contract/words.ts';
import { useFaults } from '#web/api/use-intake.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/intake/intake.module.css';
import { saySender } from '#web/screens/intake/say-sender.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { FaultList } from './fault-list.tsx';
import { RefusedLines } from './refused-lines.tsx';
import {
  parseRefusedSearch,
  patchRefusedSearch,
  type RefusedPatch,
  type RefusedSearch,
} from './refused-search.ts';
import { RuleForm } from './rule-form.tsx';

const route = getRouteApi('/intake/refused');
const stateWords = { open: 'open', let_in: 'let in', laid_aside: 'laid aside' };

/** Lines that could not be a reading: kept as they came, to be put right and let in. */
export function RefusedScreen() {
  const search = parseRefusedSearch({ ...route.useSearch() });
  const navigate = route.useNavigate();
  const { receipt, sender, state = 'open' } = search;
  const { data, isPending, isError, error, refetch } = useFaults({
    state,
    ...(receipt === undefined ? {} : { receipt }),
    ...(sender === undefined ? {} : { sender }),
  });
  useEffect(() => {
    document.title = 'Refused lines · Slipdrift';
  }, []);
  const change = (patch: RefusedPatch) =>
    void navigate({
      to: '/intake/refused',
      search: (before: RefusedSearch) => patchRefusedSearch(before, patch),
      resetScroll: false,
    });
  const groups = data?.groups ?? [];
  const group = groups.find(({ fault }) => fault === search.fault);
  const from = groups.flatMap(({ senders }) => senders).find(({ id }) => id === sender);
  return (
    <div className={settingsStyles.screen}>
      <header className={settingsStyles.head}>
        <div className={settingsStyles.words}>
          <h1>Refused lines</h1>
          <p>
            Lines that could not be a reading, kept as they came. Put one right and let it in, or all with the
            same fault by a rule.
          </p>
        </div>
      </header>
      <div className={settingsStyles.tools}>
        <ChoiceGroup
          legend="Lines"
          name="state"
          options={lineStates.map((value) => ({ value, label: stateWords[value] }))}
          value={state}
          onChoose={(value) => change({ state: value === 'open' ? undefined : value })}
        />
        {receipt !== undefined && (
          <p>
            Only of one delivery{' '}
            <Button kind="quiet" onClick={() => change({ receipt: undefined })}>
              Show all deliveries
            </Button>
          </p>
        )}
        {sender !== undefined && (
          <p>
            Only from {from === undefined ? 'one sender' : saySender(from)}{' '}
            <Button kind="quiet" onClick={() => change({ sender: undefined })}>
              Show all senders
            </Button>
          </p>
        )}
        <p className={settingsStyles.small} role="status">
          {data === undefined ? '' : `${formatWhole(data.total)} ${data.total === 1 ? 'line' : 'lines'}`}
        </p>
      </div>
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the faults</p>}
      {data !== undefined && groups.length === 0 && (
        <p className={settingsStyles.none}>
          {state === 'open'
            ? 'No line waits. A line that cannot be read stands here with what is wrong with it, until somebody puts it right or lays it aside.'
            : `No line was ${stateWords[state]} yet.`}
        </p>
      )}
      {groups.length > 0 && (
        <div className={styles.desk}>
          <section className={settingsStyles.stack} aria-label="By fault">
            <h2>By fault</h2>
            <FaultList groups={groups} search={search} />
          </section>
          <section className={settingsStyles.stack} aria-label="Lines of a fault">
            <h2>{search.fault ?? 'All lines'}</h2>
            {group !== undefined && state === 'open' && (
              <RuleForm key={group.fault} group={group} search={search} />
            )}
            <RefusedLines search={search} onChange={change} />
          </section>
        </div>
      )}
    </div>
  );
}
