/** Page script: the largest errors of the proof, which of them the plan marks, and where a section is laid first. */
export const MARKS_SCRIPT = String.raw`
/** Figures of a cut that are errors in a direction, and the sign of each: too much or too little was taken. */
var ERRORS = {
  'wall overcut': '+', 'floor deep': '+', gouge: '+',
  'wall undercut': '\u2212', 'floor shallow': '\u2212', 'line covered': '\u2212', 'ridges left': '\u2212',
};
var WORST_ROWS = 12;

/** Errors with a place, the nearest to their limit first. */
function worstOf(model) {
  if (model.worst === undefined) {
    var all = [];
    model.cuts.forEach(function (cut, number) {
      cut.figures.forEach(function (figure) {
        if (figure.place === null || (ERRORS[figure.name] === undefined && figure.passed)) return;
        all.push({ cut: number, figure: figure, place: figure.place, sign: figure.passed ? ERRORS[figure.name] : '!',
          share: figure.passed ? figure.value / (figure.limit || 1e-3) : Infinity });
      });
    });
    model.worst = all.sort(function (a, b) { return b.share - a.share || b.figure.value - a.figure.value; }).slice(0, WORST_ROWS);
  }
  return model.worst;
}

/** On the plan: all that failed, the largest of either sign, and those of the chosen feature. */
function marksOf(model, chosen) {
  var signs = new Set();
  return worstOf(model).filter(function (mark) {
    if (mark.sign === '!' || mark.cut === chosen) return true;
    if (!(mark.figure.value > 0) || signs.has(mark.sign)) return false;
    signs.add(mark.sign);
    return true;
  });
}

/** Lengthways through the first thing that is cut, from edge to edge of the stock and a little beyond. */
function defaultLine(model) {
  var at = model.cuts.length === 0 ? (model.stock.y[0] + model.stock.y[1]) / 2 : middleOf(model.cuts[0])[1];
  return lineOfPlan(model.stock.x[0] - 3, at, model.stock.x[1] + 3, at);
}
`;
