import { type ToldGrade, toldGrades } from '#server/contract/webhooks.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { ChoiceLine, ChoiceLines } from '#web/ui/choice-lines.tsx';
import fieldStyles from '#web/ui/field.module.css';
import { findFieldError } from '#web/ui/find-field-error.ts';
import { TextField } from '#web/ui/text-field.tsx';
import { gradeHints } from './say-webhook.ts';

export interface WebhookDraft {
  name: string;
  url: string;
  grades: ToldGrade[];
}

interface Props {
  value: WebhookDraft;
  error: unknown;
  onChange: (patch: Partial<WebhookDraft>) => void;
}

export const webhookFieldNames = ['name', 'url', 'grades'];

export function WebhookFields({ value, error, onChange }: Props) {
  const wrongGrades = findFieldError(error, 'grades');
  const toggle = (grade: ToldGrade) =>
    onChange({
      grades: toldGrades.filter((one) => value.grades.includes(one) !== (one === grade)),
    });
  return (
    <div className={settingsStyles.columns}>
      <div className={settingsStyles.stack}>
        <TextField
          label="Name"
          hint="The program that it leads to."
          error={findFieldError(error, 'name')}
          autoComplete="off"
          maxLength={120}
          required
          value={value.name}
          onChange={(name) => onChange({ name })}
        />
        <TextField
          label="Address"
          hint="https, or http inside your own network."
          error={findFieldError(error, 'url')}
          type="url"
          inputMode="url"
          autoComplete="off"
          spellCheck={false}
          maxLength={2000}
          required
          value={value.url}
          onChange={(url) => onChange({ url })}
        />
      </div>
      <ChoiceLines legend="Told of vehicles that worsen to" isFault={wrongGrades !== undefined}>
        {toldGrades.map((grade) => (
          <ChoiceLine
            key={grade}
            type="checkbox"
            label={grade}
            words={gradeHints[grade]}
            checked={value.grades.includes(grade)}
            onChange={() => toggle(grade)}
          />
        ))}
        {wrongGrades !== undefined && <p className={fieldStyles.error}>{wrongGrades}</p>}
      </ChoiceLines>
    </div>
  );
}
