/** How many times larger than on the screen: sharp on paper and on dense screens. */
const SCALE = 2;

/** An SVG file painted as PNG, twice its size. */
export async function paintPicture(svg: string, widthPx: number, heightPx: number): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image(widthPx * SCALE, heightPx * SCALE);
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = widthPx * SCALE;
    canvas.height = heightPx * SCALE;
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('this browser has no canvas to paint on');
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve, reject) => {
      canvas.toBlob(
        (png) => (png === null ? reject(new Error('the canvas gave no PNG')) : resolve(png)),
        'image/png',
      );
    });
  } finally {
    URL.revokeObjectURL(address);
  }
}
