import { CONTROLS_SCRIPT } from './controls.ts';
import { DRAWING_SCRIPT } from './drawing.ts';
import { MOVES_SCRIPT } from './moves.ts';
import { PAGE_SCRIPT } from './page.ts';

/** The whole script of the preview page, closed in itself. */
export const PREVIEW_SCRIPT = `(function () {
'use strict';
${MOVES_SCRIPT}${DRAWING_SCRIPT}${PAGE_SCRIPT}${CONTROLS_SCRIPT}})();
`;
