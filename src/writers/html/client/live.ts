/**
 * Page script of a page that follows its files: it hears from the program that serves it (server-sent events of the HTML
 * standard), loads itself anew when there is another drawing, and says what is wrong when there is none.
 */
export const LIVE_SCRIPT = `
var news = document.getElementById('news');
var drawing = news.getAttribute('data-drawing');

function show(state, head, text) {
  news.setAttribute('data-state', state);
  news.querySelector('strong').textContent = head;
  news.querySelector('pre').textContent = text;
}

var source = new EventSource('/news');
source.addEventListener('message', function (event) {
  var told = JSON.parse(event.data);
  if (told.drawing !== null && told.drawing !== drawing) location.reload();
  else show(told.state, told.head, told.text);
});
source.addEventListener('error', function () {
  show('lost', 'nutline is no longer running here, so this drawing follows nothing.', '');
});
window.addEventListener('pagehide', function () { source.close(); });
`;
