import { CONTROLS_SCRIPT } from './controls.ts';
import { DRAWING_SCRIPT } from './drawing.ts';
import { FACTS_SCRIPT } from './facts.ts';
import { LIVE_SCRIPT } from './live.ts';
import { MARKS_SCRIPT } from './marks.ts';
import { MODEL_SCRIPT } from './model.ts';
import { MOVES_SCRIPT } from './moves.ts';
import { PAGE_SCRIPT } from './page.ts';
import { PATHS_SCRIPT } from './paths.ts';
import { PLACE_SCRIPT } from './place.ts';
import { PLAN_SCRIPT } from './plan.ts';
import { POINTER_SCRIPT } from './pointer.ts';
import { RINGS_SCRIPT } from './rings.ts';
import { SECTION_SCRIPT } from './section.ts';
import { SECTION_DRAWING_SCRIPT } from './sectionDrawing.ts';
import { SURFACES_SCRIPT } from './surfaces.ts';
import { SWEPT_SCRIPT } from './swept.ts';

/** Without the lines that only speak to whoever reads these files, without indents and empty lines: a page carries what it runs. */
function tightened(script: string): string {
  return script
    .replace(/^ *(?:\/\*\*.*\*\/|\/\/.*)\n/gm, '')
    .replace(/^ +/gm, '')
    .replace(/\n{2,}/g, '\n');
}

/** What knows nothing of a page: geometry, moves and sections. It runs wherever JavaScript does. */
export const REASONING_SCRIPT = tightened(
  `${MOVES_SCRIPT}${RINGS_SCRIPT}${SURFACES_SCRIPT}${SWEPT_SCRIPT}${MODEL_SCRIPT}${SECTION_SCRIPT}`,
);

/** Drawing on whatever takes the strokes of a canvas. */
export const SHEET_SCRIPT = tightened(
  `${DRAWING_SCRIPT}${PATHS_SCRIPT}${PLAN_SCRIPT}${SECTION_DRAWING_SCRIPT}${MARKS_SCRIPT}`,
);

/** The whole script of the preview page, closed in itself. */
export const PREVIEW_SCRIPT = `(function () {
'use strict';
${REASONING_SCRIPT}${SHEET_SCRIPT}${tightened(`${PAGE_SCRIPT}${FACTS_SCRIPT}${POINTER_SCRIPT}${PLACE_SCRIPT}${CONTROLS_SCRIPT}`)}})();
`;

/** What a page that follows its files runs besides. */
export const LIVE_PAGE_SCRIPT = `(function () {
'use strict';
${tightened(LIVE_SCRIPT)}})();
`;
