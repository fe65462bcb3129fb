/** Page script: what is looked at is kept with the page's entry in the history, so that a page loaded anew goes on there. */
export const PLACE_SCRIPT = `
function keepPlace() {
  var model = current();
  var line = state.line;
  history.replaceState({
    nutline: 1,
    path: data.programs[state.program].path,
    unit: shown.unit,
    share: model.minutes[state.move] / (model.minutes[model.moves.count] || 1),
    view: state.isWhole ? null : state.view,
    line: [line.ax, line.ay, line.bx, line.by],
    chosen: state.chosen < 0 ? null : model.cuts[state.chosen].id,
    reading: state.reading,
    alike: state.alike,
  }, '');
}

/** Where a program of that name is still there; what has gone is passed over. */
function takeUpPlace() {
  var kept = history.state;
  if (kept === null || typeof kept !== 'object' || kept.nutline !== 1) return;
  var index = data.programs.findIndex(function (program) { return program.path === kept.path; });
  if (index < 0) return;
  if (kept.unit === 'in') {
    /** @type {HTMLInputElement} */ (document.querySelector('input[name=unit][value=in]')).checked = true;
    shown.unit = 'in';
  }
  chooseProgram(index);
  state.alike = inputOf('alike').checked = kept.alike;
  state.reading = kept.reading;
  inputOf('reading').value = String(Math.round(kept.reading * 1000));
  if (kept.view !== null) {
    state.view = kept.view;
    state.isWhole = false;
  }
  var cut = current().cuts.findIndex(function (c) { return c.id === kept.chosen; });
  if (cut >= 0) chooseFeature(cut);
  setLineOfSection(kept.line[0], kept.line[1], kept.line[2], kept.line[3], false);
  goToTime(kept.share);
}
`;
