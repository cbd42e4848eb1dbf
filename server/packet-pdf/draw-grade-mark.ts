import type { Grade } from '#server/contract/words.ts';
import { gradeBlocks } from '#web/ui/grade-shape.ts';
import { paperLook } from './paper-look.ts';

/** The mark beside the word of a grade, as on the screens. */
export function drawGradeMark(grade: Grade): string {
  const tone = paperLook.grade[grade];
  const block = gradeBlocks[grade];
  const dots = grade === 'unknown' ? ' stroke-dasharray="1.5 2.75" stroke-dashoffset="-3"' : '';
  return (
    '<svg xmlns="http://www.w3.org/2000/svg" width="20" height="14" viewBox="0 0 20 14">' +
    `<path d="M2 0.5L2 13.5" stroke="${tone}" stroke-width="2"/>` +
    `<path d="M2 7L19 7" stroke="${tone}" stroke-width="1.5"${dots}/>` +
    (block === null
      ? ''
      : `<rect x="${block.x}" y="${block.y}" width="${block.width}" height="${block.height}" fill="${tone}"/>`) +
    '</svg>'
  );
}
