import { Link } from '@tanstack/react-router';
import type { Change } from '#server/contract/changes.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { actionWords, nameSubject, sayActor, subjectWords } from './change-words.ts';
import styles from './changes-screen.module.css';
import { type FieldChange, listFieldChanges, type NameOf } from './list-field-changes.ts';

const mostInSight = 5;

interface SubjectProps {
  change: Change;
  names: ReadonlyMap<string, string>;
}

interface Props extends SubjectProps {
  nameOf: NameOf;
}

export function ChangeLine({ change, names, nameOf }: Props) {
  const fields = listFieldChanges(change, nameOf);
  const rest = fields.slice(mostInSight);
  return (
    <li className={styles.line}>
      <p className={styles.when}>
        <time dateTime={change.at}>{formatMoment(change.at)}</time>
        <span>{sayActor(change.actor)}</span>
        {change.from !== null && <small>from {change.from}</small>}
      </p>
      <p className={styles.what}>
        <strong>{actionWords[change.action]}</strong>
        <span>
          {subjectWords[change.subject]} <Subject change={change} names={names} />
        </span>
      </p>
      <div className={styles.fields}>
        <Fields fields={fields.slice(0, mostInSight)} />
        {rest.length > 0 && (
          <details>
            <summary>{rest.length === 1 ? '1 more field' : `${rest.length} more fields`}</summary>
            <Fields fields={rest} />
          </details>
        )}
      </div>
    </li>
  );
}

function Subject({ change, names }: SubjectProps) {
  const { subject, subject_id } = change;
  if (subject === 'vehicle')
    return (
      <Link to="/vehicles/$vehicle" params={{ vehicle: subject_id }}>
        {subject_id}
      </Link>
    );
  if (subject === 'platform')
    return (
      <Link to="/platforms/$platform" params={{ platform: subject_id }}>
        {nameSubject(change, names)}
      </Link>
    );
  return <>{nameSubject(change, names)}</>;
}

function Fields({ fields }: { fields: readonly FieldChange[] }) {
  if (fields.length === 0) return null;
  return (
    <dl>
      {fields.map(({ field, from, to }) => (
        <div key={field}>
          <dt>{field}</dt>
          <dd>
            {from !== null && to !== null ? (
              <>
                <span className={styles.old}>{from}</span>
                <span aria-hidden="true"> → </span>
                <span className="only-spoken">, now </span>
                {to}
              </>
            ) : (
              (to ?? <span className={styles.old}>{from}</span>)
            )}
          </dd>
        </div>
      ))}
    </dl>
  );
}
