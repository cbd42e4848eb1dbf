import type { z } from 'zod';
import { SlipdriftError } from '#server/errors.ts';

/** Form data of a file and of settings as JSON, checked. */
export async function readSample<S extends z.ZodType>(
  bytes: Buffer,
  contentType: string,
  settings: S,
  limitBytes: number,
) {
  const form = await parseForm(bytes, contentType);
  const file = form.get('sample');
  if (!(file instanceof Blob)) throw wrong('sample', 'must be the file, or its beginning');
  if (file.size > limitBytes) throw wrong('sample', `must have at most ${limitBytes / 1_048_576} MiB`);
  const text = form.get('settings');
  if (typeof text !== 'string') throw wrong('settings', 'must be JSON in a field of the form');
  const found = settings.safeParse(parseJson(text));
  if (!found.success) {
    const errors = found.error.issues.map(({ path, message }) => ({
      field: path.map(String).join('.'),
      message,
    }));
    const [first] = errors;
    throw new SlipdriftError(
      'invalid_request',
      `The settings are not right: ${first?.field} ${first?.message}. Nothing was looked at.`,
      { errors },
    );
  }
  const sample = Buffer.from(await file.arrayBuffer());
  const name = 'name' in file && typeof file.name === 'string' && file.name !== 'blob' ? file.name : '';
  return {
    sample,
    name: name.slice(-255),
    gzip: sample[0] === 0x1f && sample[1] === 0x8b,
    settings: found.data,
  };
}

async function parseForm(bytes: Buffer, contentType: string): Promise<FormData> {
  try {
    return await new Response(new Uint8Array(bytes), { headers: { 'content-type': contentType } }).formData();
  } catch (cause) {
    throw new SlipdriftError(
      'body_broken',
      'The body is no form data, or breaks off. Nothing was looked at.',
      { cause },
    );
  }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw wrong('settings', 'are not JSON');
  }
}

const wrong = (field: string, message: string): SlipdriftError =>
  new SlipdriftError('invalid_request', `The ${field} ${message}. Nothing was looked at.`, {
    errors: [{ field, message }],
  });
