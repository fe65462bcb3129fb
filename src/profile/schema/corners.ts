/** How far a control strays from the written path where two moves meet. */
import * as z from 'zod';
import type { Fields } from './fields.ts';

/** `exact` is no distance at all. */
export const cornersField = (fields: Fields) =>
  z
    .preprocess(
      (given) => (given === 'exact' ? '0 mm' : given),
      fields.length(
        'How far the control may leave the written path where two moves meet, by its manual or settings: exact, or a length. Left out: nobody knows. With exactPath it does not matter.',
        [0, 5],
      ),
    )
    .optional();
