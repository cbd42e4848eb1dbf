import { useState } from 'react';
import type { FaultGroup, RuleReply } from '#server/contract/intake.ts';
import { readingFields } from '#server/contract/readings.ts';
import { useChangeLineStates, useRule } from '#web/api/use-intake.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/intake/intake.module.css';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import fieldStyles from '#web/ui/field.module.css';
import formStyles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import type { RefusedSearch } from './refused-search.ts';
import { kindsFor, newRuleDraft, type RuleDraft, ruleWords, toRule, unitsOf } from './rule-draft.ts';
import { RuleOutcome } from './rule-outcome.tsx';

interface Props {
  group: FaultGroup;
  search: RefusedSearch;
}

/** All lines with a fault by one rule: first what it comes to, then, if that is right, the doing. */
export function RuleForm({ group, search }: Props) {
  const [draft, setDraft] = useState(() => newRuleDraft(group.field));
  const [fault, setFault] = useState('');
  const [tried, setTried] = useState<RuleReply | null>(null);
  const rule = useRule();
  const aside = useChangeLineStates();
  const patch = (change: Partial<RuleDraft>) => {
    setDraft((before) => ({ ...before, ...change }));
    setTried(null);
    setFault('');
  };
  const { receipt, sender } = search;
  const which = {
    fault: group.fault,
    ...(receipt === undefined ? {} : { receipt }),
    ...(sender === undefined ? {} : { sender }),
  };
  const run = (isDry: boolean) => {
    const made = toRule(draft);
    if (made.rule === null) return setFault(made.error);
    rule.mutate({ ...which, rule: made.rule, dry_run: isDry }, { onSuccess: setTried });
  };
  return (
    <form
      className={settingsStyles.sheet}
      aria-label="All of them by a rule"
      onSubmit={(event) => {
        event.preventDefault();
        run(true);
      }}
    >
      <h3>All {formatWhole(group.lines)} by a rule</h3>
      <div className={styles.rule}>
        <SelectField
          label="What to do"
          value={draft.kind}
          options={kindsFor(group.field).map((value) => ({ value, label: ruleWords[value] }))}
          onChange={(kind) => patch({ kind: kind as RuleDraft['kind'] })}
        />
        <RuleFields draft={draft} hasField={group.field !== ''} onChange={patch} />
        <Button type="submit" disabled={rule.isPending}>
          Try it
        </Button>
      </div>
      {fault !== '' && (
        <p className={fieldStyles.error} role="alert">
          {fault}
        </p>
      )}
      {rule.isError && <ProblemNote error={rule.error} />}
      {aside.isError && <ProblemNote error={aside.error} />}
      {tried !== null && <RuleOutcome reply={tried} />}
      <div className={formStyles.buttons}>
        {tried?.dry_run && tried.good > 0 && (
          <Button kind="main" disabled={rule.isPending} onClick={() => run(false)}>
            Let {formatWhole(tried.good)} in
          </Button>
        )}
        <Button
          kind="quiet"
          disabled={aside.isPending}
          onClick={() => aside.mutate({ ...which, state: 'laid_aside' })}
        >
          Lay all {formatWhole(group.lines)} aside
        </Button>
      </div>
    </form>
  );
}

interface FieldsProps {
  draft: RuleDraft;
  hasField: boolean;
  onChange: (change: Partial<RuleDraft>) => void;
}

function RuleFields({ draft, hasField, onChange }: FieldsProps) {
  switch (draft.kind) {
    case 'leave_out':
      return null;
    case 'take_value':
      return (
        <>
          {!hasField && (
            <SelectField
              label="Field"
              value={draft.field}
              options={readingFields.map((value) => ({ value, label: value }))}
              onChange={(field) => onChange({ field })}
            />
          )}
          <TextField
            label={`Value of ${draft.field}`}
            value={draft.value}
            onChange={(value) => onChange({ value })}
          />
        </>
      );
    case 'unit':
      return (
        <SelectField
          label={`${draft.field} is in`}
          value={draft.unit}
          options={unitsOf(draft.field).map((value) => ({ value, label: value }))}
          onChange={(unit) => onChange({ unit })}
        />
      );
    case 'reckon':
      return (
        <>
          <TextField
            label="Times"
            inputMode="decimal"
            value={draft.times}
            onChange={(times) => onChange({ times })}
          />
          <TextField
            label="Plus"
            inputMode="decimal"
            value={draft.plus}
            onChange={(plus) => onChange({ plus })}
          />
        </>
      );
    case 'zone':
      return (
        <TextField
          label="Zone"
          placeholder="Europe/Vienna or +02:00"
          value={draft.zone}
          onChange={(zone) => onChange({ zone })}
        />
      );
    case 'replace':
      return (
        <>
          <TextField label="Replace" value={draft.find} onChange={(find) => onChange({ find })} />
          <TextField
            label="By"
            placeholder="nothing"
            value={draft.with}
            onChange={(text) => onChange({ with: text })}
          />
        </>
      );
  }
}
