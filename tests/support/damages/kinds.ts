/** Every kind of damage by name. */
import * as bugs from './byBug.ts';
import type { Damage } from './byHand.ts';
import * as slips from './byHand.ts';
import * as transfers from './byTransfer.ts';

export const DAMAGES: Readonly<Record<string, Damage>> = {
  'digit changed': slips.digitChanged,
  'digit lost': slips.digitLost,
  'digits swapped': slips.digitsSwapped,
  'number nudged': slips.numberNudged,
  'sign changed': slips.signChanged,
  'point lost': slips.pointLost,
  'point moved': slips.pointMoved,
  'word lost': slips.wordLost,
  'letter changed': slips.letterChanged,
  'centre letters swapped': slips.centreLettersSwapped,
  'centre shifted': slips.centreShifted,
  'motion word changed': slips.motionWordChanged,
  'arc turned the other way': slips.arcTurned,
  'mode changed': slips.modeChanged,
  'mode inserted': slips.modeInserted,
  'mode lost': slips.modeLost,
  'line lost': slips.lineLost,
  'lines lost': slips.linesLost,
  'line doubled': slips.lineDoubled,
  'line copied elsewhere': slips.lineCopiedElsewhere,
  'lines swapped': slips.linesSwapped,
  'spindle word changed': slips.spindleWordChanged,
  'spindle word lost': slips.spindleWordLost,
  'stop inserted': slips.stopInserted,
  'feed changed': slips.feedChanged,
  'speed changed': slips.speedChanged,
  'dwell changed': slips.dwellChanged,
  'tool named': slips.toolNamed,
  'remark left open': slips.remarkLeftOpen,
  'cut short': transfers.cutShort,
  'cut short at a line': transfers.cutShortAtALine,
  'middle lost': transfers.middleLost,
  'character garbled': transfers.characterGarbled,
  'bit flipped': transfers.bitFlipped,
  'character lost': transfers.characterLost,
  'character doubled': transfers.characterDoubled,
  'characters lost': transfers.charactersLost,
  'stretch doubled': transfers.stretchDoubled,
  'lines joined': transfers.linesJoined,
  'line broken': transfers.lineBroken,
  'lines cut at a width': transfers.linesLongerCut,
  shifted: bugs.shifted,
  'wrong work zero': bugs.wrongWorkZero,
  mirrored: bugs.mirrored,
  turned: bugs.turned,
  scaled: bugs.scaled,
  'units changed': bugs.unitsChanged,
  'rounded off': bugs.roundedOff,
  drifting: bugs.drifting,
  'all feeds changed': bugs.allFeedsChanged,
  'all speeds changed': bugs.allSpeedsChanged,
  'feature left out': bugs.featureLeftOut,
  'feature made twice': bugs.featureMadeTwice,
  'feature shifted': bugs.featureShifted,
  'features reordered': bugs.featuresReordered,
  'pass left out': bugs.passLeftOut,
  'pass made twice': bugs.passMadeTwice,
  'pass deeper': bugs.passDeeper,
  'all depths changed': bugs.depthsChanged,
  'retract lost': bugs.retractLost,
  'retract lower': bugs.retractLower,
  'tab lost': bugs.tabLost,
  'beam left on': bugs.beamLeftOn,
  'compensated wrongly': bugs.compensatedWrongly,
};

/** The one kind that changes the tool in the machine and not the text. */
export const OTHER_TOOL = 'other tool';
/** Another program of the same job run in place of this one. */
export const OTHER_PROGRAM = 'other program';

export const KINDS: readonly string[] = [...Object.keys(DAMAGES), OTHER_TOOL, OTHER_PROGRAM];
