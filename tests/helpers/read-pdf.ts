import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface PdfText {
  text: string;
  x: number;
  /** of the baseline, from the foot of the sheet */
  y: number;
  width: number;
}

export interface PdfPage {
  widthPt: number;
  heightPt: number;
  texts: PdfText[];
  /** the page's words in their order, with single spaces */
  words: string;
  images: number;
  paths: number;
}

/** What another program finds in a PDF: words and their places, pictures, drawn paths, fonts. */
export async function readPdf(
  pdf: Uint8Array,
): Promise<{ title: string; pages: PdfPage[]; missingFonts: string[]; fonts: string[] }> {
  const task = getDocument({ data: pdf.slice(), useSystemFonts: false, verbosity: 0 });
  const document = await task.promise;
  const { info } = (await document.getMetadata()) as { info: { Title?: string } };
  const pages: PdfPage[] = [];
  const fonts = new Map<string, boolean>();
  for (let at = 1; at <= document.numPages; at += 1) {
    const page = await document.getPage(at);
    const { width, height } = page.getViewport({ scale: 1 });
    const { items } = await page.getTextContent();
    const texts = items.flatMap((item) =>
      'str' in item && item.str.trim() !== ''
        ? [{ text: item.str, x: item.transform[4], y: item.transform[5], width: item.width }]
        : [],
    );
    const operators = await page.getOperatorList();
    const count = (...kinds: number[]) => operators.fnArray.filter((kind) => kinds.includes(kind)).length;
    operators.fnArray.forEach((kind, i) => {
      if (kind !== OPS.setFont) return;
      const font = page.commonObjs.get(operators.argsArray[i][0]) as { name: string; missingFile?: boolean };
      fonts.set(font.name, font.missingFile === true);
    });
    pages.push({
      widthPt: width,
      heightPt: height,
      texts,
      words: texts
        .map(({ text }) => text)
        .join(' ')
        .replaceAll(/\s+/g, ' '),
      images: count(OPS.paintImageXObject, OPS.paintInlineImageXObject, OPS.paintImageMaskXObject),
      paths: count(OPS.constructPath),
    });
  }
  await task.destroy();
  return {
    title: info.Title ?? '',
    pages,
    fonts: [...fonts.keys()],
    missingFonts: [...fonts].filter(([, isMissing]) => isMissing).map(([name]) => name),
  };
}
