export { equalCents, fretDistance } from '../units/boardFormulas.ts';
