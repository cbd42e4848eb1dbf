import type { z } from 'zod';

/** What is wrong with a value that is out of bounds, in words for who sent it; null where zod's own words do. */
export const sayBounds: z.core.$ZodErrorMap = (issue) => {
  if (issue.code !== 'too_small' && issue.code !== 'too_big') return null;
  const isLeast = issue.code === 'too_small';
  const bound = String(issue.code === 'too_small' ? issue.minimum : issue.maximum);
  switch (issue.origin) {
    case 'string':
      if (isLeast && bound === '1') return 'must not be empty';
      return `must be ${isLeast ? 'at least' : 'at most'} ${bound} characters long`;
    case 'array':
      return `must have ${isLeast ? 'at least' : 'at most'} ${bound} ${bound === '1' ? 'element' : 'elements'}`;
    case 'number':
    case 'int':
      if (issue.inclusive === false) return `must be ${isLeast ? 'more' : 'less'} than ${bound}`;
      return `must be ${bound} or ${isLeast ? 'more' : 'less'}`;
    default:
      return null;
  }
};
