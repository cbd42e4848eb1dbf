import type { Look } from '#server/contract/looks.ts';
import type { Mapping, StoredMapping } from '#server/contract/mappings.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './bring.module.css';
import type { BroughtFile, GivenToAll } from './brought-files.ts';
import { CanPart } from './can-part.tsx';
import { ColumnsPart } from './columns-part.tsx';
import { FormPart } from './form-part.tsx';
import { GivenFields } from './given-fields.tsx';
import { listNeeds } from './list-needs.ts';
import { NamesPart } from './names-part.tsx';
import { doubtsOfLog } from './place-lack.ts';
import { ReadingChoice } from './reading-choice.tsx';
import { FaultsPart, RowsPart } from './rows-part.tsx';
import { sayForm, saySpan, sayVehicles } from './say-look.ts';
import { Remarks, Step } from './step.tsx';
import type { Reading } from './use-reading.ts';
import { WhereWhenPart } from './where-when-part.tsx';

interface Props {
  look: Look;
  mapping: Mapping | null;
  one: BroughtFile;
  files: readonly BroughtFile[];
  all: GivenToAll;
  reading: Reading;
  stored: readonly StoredMapping[];
  isOld: boolean;
  error: unknown;
  onFile: (id: number, patch: Partial<BroughtFile>) => void;
  onAll: (all: GivenToAll) => void;
}

/** Steps 2 to 4: by a mapping, of a log, or of a file in our own form, which needs nothing but a look at its rows. */
export function LookParts(props: Props) {
  const { look, mapping, one, files, all, reading, stored, isOld, error, onFile, onAll } = props;
  const needs = listNeeds(look, mapping, files);
  const given = (
    <GivenFields
      files={files}
      needs={needs}
      shown={one.id}
      lacks={look.lacks}
      vehicleHint={look.format === 'can' ? 'left empty: by the VIN in the log' : undefined}
      onFile={onFile}
    />
  );
  const rows = (
    <>
      {look.lacks.length > 0 ? (
        <p className={styles.soft}>Rows stand here once nothing above is lacking or in the way.</p>
      ) : (
        <p>
          {sayVehicles(look)} {saySpan(look)}
        </p>
      )}
      <RowsPart
        look={look}
        zone={mapping === null ? null : (mapping.time.zone ?? (all.zone === '' ? null : all.zone))}
      />
      <FaultsPart faults={look.faults} />
    </>
  );
  return (
    <>
      <Step number={2} title="What it is">
        <p>{sayForm(look)}</p>
        {error !== null && <ProblemNote error={error} title="The file could not be read so" />}
        {mapping !== null && (
          <>
            <ReadingChoice reading={reading} stored={stored} />
            <FormPart look={look} mapping={mapping} onChange={reading.change} />
          </>
        )}
        {look.can !== null && <CanPart look={look} can={look.can} />}
        {mapping === null && look.can === null && <Remarks lacks={look.lacks} />}
      </Step>
      {mapping !== null && (
        <Step number={3} title="What its columns are">
          <ColumnsPart look={look} mapping={mapping} onChange={reading.change} />
          {mapping.layout === 'long' && <NamesPart look={look} mapping={mapping} onChange={reading.change} />}
          <h3>Vehicle and time</h3>
          <WhereWhenPart look={look} mapping={mapping} all={all} onChange={reading.change} onAll={onAll} />
          {given}
        </Step>
      )}
      {look.can !== null && (
        <Step number={3} title="Vehicle, start and windows">
          {given}
          <div className={styles.fields}>
            <TextField
              label="Length of a window, s"
              hint="10 where left empty; 1 to 600"
              type="number"
              min={1}
              max={600}
              value={all.windowS}
              onChange={(windowS) => onAll({ ...all, windowS })}
            />
          </div>
          <Remarks doubts={doubtsOfLog(look)} lacks={look.lacks} />
        </Step>
      )}
      <div data-old={isOld || undefined} className={styles.seen}>
        <Step number={mapping === null && look.can === null ? 3 : 4} title="As it would be read">
          {rows}
        </Step>
      </div>
    </>
  );
}
