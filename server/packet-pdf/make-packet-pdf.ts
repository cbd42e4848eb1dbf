import pdfmake from 'pdfmake';
import type { Content, TDocumentDefinitions } from 'pdfmake/interfaces.js';
import { below, typePt } from './blocks.ts';
import { dressTexts } from './dress-texts.ts';
import { writeCodes, writeEarlier, writeLives } from './history-parts.ts';
import { writeFooter, writeHeader } from './page-edges.ts';
import { writePageOne } from './page-one.ts';
import type { Paper } from './paper.ts';
import { fontFiles, fontFolder, PLAIN_FONT } from './paper-fonts.ts';
import { paperLook } from './paper-look.ts';
import { layPage } from './paper-page.ts';
import { writePhotos } from './photo-part.ts';
import type { PrintRequest } from './print-request.ts';
import { writeParts, writeReport } from './report-parts.ts';
import { tellTimes } from './say-time.ts';
import { writeDuty, writeExposure, writeMileage } from './slip-charts.ts';
import { writeCautions, writeSteps } from './step-parts.ts';
import { writeTrace } from './trace-part.ts';
import { writeTree } from './tree-part.ts';

/** What is printed names no address and no file: whatever stands in a packet, only the fonts are opened. */
function setUp(): void {
  pdfmake.setFonts(fontFiles);
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy((path) => path.startsWith(fontFolder));
}

/** A packet as the pages that lie beside the vehicle. */
export async function makePacketPdf(request: PrintRequest): Promise<Uint8Array> {
  setUp();
  const { packet, series, trace, photos, size, units, madeAt, timeZone } = request;
  const paper: Paper = { packet, units, clock: tellTimes(timeZone), page: layPage(size) };
  const content: Content[] = [
    ...writePageOne(paper),
    ...(series === null
      ? [
          {
            text: 'No readings of this vehicle to draw.',
            ...below(12),
          },
        ]
      : [writeMileage(paper, series), writeDuty(paper, series)]),
    writeCodes(paper),
    ...(series === null ? [] : [writeExposure(paper, series)]),
    writeLives(paper),
    ...writeEarlier(paper),
    writeCautions(paper),
    writeSteps(paper),
    ...(trace === null ? [] : [writeTrace(paper, trace)]),
    writeTree(paper),
    writeParts(paper),
    writeReport(paper),
    writePhotos(photos, paper.page.widthPt),
  ];
  const definition: TDocumentDefinitions = {
    pageSize: paper.page.name,
    pageMargins: paper.page.margins,
    language: 'en',
    info: {
      title: `Packet ${packet.id}, unit ${packet.vehicle}`,
      creator: 'Slipdrift',
      producer: 'Slipdrift',
      creationDate: new Date(madeAt),
    },
    defaultStyle: {
      font: PLAIN_FONT,
      fontSize: typePt.body,
      color: paperLook.ink,
      lineHeight: 1.15,
      fontFeatures: ['tnum'],
    },
    header: (at, of) => dressTexts(writeHeader(paper, at, of)),
    footer: () => dressTexts(writeFooter(paper, madeAt)),
    content: dressTexts(content),
  };
  return new Uint8Array(await pdfmake.createPdf(definition).getBuffer());
}
