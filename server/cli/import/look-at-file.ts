import { describeLook } from './describe-look.ts';
import type { ImportTarget } from './import-target.ts';
import type { ImportFile } from './open-import-file.ts';

/** Shows what a file would come to, and answers whether any of it could be taken. A zone that was given is saved too. */
export async function lookAtFile(
  target: ImportTarget,
  file: ImportFile,
  saveAs: string | null,
  zone: string | null,
): Promise<boolean> {
  const look = await target.look(
    file,
    file.read(() => {}),
  );
  console.log(describeLook(file.name, look).join('\n'));
  const isRead = look.lacks.length === 0 && look.good > 0;
  if (saveAs !== null) {
    if (look.mapping === null) console.log('  No mapping is needed, and none was saved.');
    else if (!isRead) console.log(`  Nothing is saved as '${saveAs}' until the file can be read.`);
    else {
      const { time } = look.mapping;
      await target.saveMapping(saveAs, { ...look.mapping, time: { ...time, zone: time.zone ?? zone } });
      console.log(`  Saved as '${saveAs}'. Import with --mapping '${saveAs}'.`);
    }
  } else if (look.mapping !== null && isRead)
    console.log('  Nothing was stored. --save-mapping <name> keeps the mapping.');
  return isRead;
}
