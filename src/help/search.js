/* global document, location */
/** Filters the list of functions while a person types. Without this script the list is whole. */
const box = document.getElementById('search');
const query = document.getElementById('query');
const found = document.getElementById('found');
const items = [...document.querySelectorAll('[data-search]')];

/** True if a word of the text begins so: "rain" is not in "drain". */
function hasWord(text, beginning) {
  for (let at = text.indexOf(beginning); at !== -1; at = text.indexOf(beginning, at + 1))
    if (at === 0 || !/[\p{L}\p{N}]/u.test(text[at - 1])) return true;
  return false;
}

function filter() {
  const words = query.value
    .toLowerCase()
    .replace(/^\s*=?soak\./, '')
    .split(/\s+/)
    .filter(Boolean);
  const hits = items.filter((item) => {
    const fits = words.every((word) => hasWord(item.dataset.search, word));
    item.hidden = !fits;
    return fits;
  });
  for (const family of document.querySelectorAll('.family'))
    family.hidden = family.querySelector('[data-search]:not([hidden])') === null;
  if (words.length === 0) found.textContent = '';
  else if (hits.length === 0) found.textContent = 'No function fits. Try another word.';
  else found.textContent = `${hits.length} of ${items.length} functions`;
  return hits;
}

/** The link to open: the function of that name, else one whose name has the words, else the first. */
function best(hits) {
  const wanted = query.value
    .trim()
    .toUpperCase()
    .replace(/^=?SOAK\./, '')
    .replace(/\s+/g, '_');
  const links = hits.map((item) => item.querySelector('a'));
  return (
    links.find(({ textContent }) => textContent === wanted) ??
    links.find(({ textContent }) => textContent.includes(wanted)) ??
    links[0]
  );
}

query.addEventListener('input', filter);
query.addEventListener('keydown', (event) => {
  if (event.key === 'Escape') {
    query.value = '';
    filter();
  }
  if (event.key !== 'Enter') return;
  event.preventDefault();
  const first = best(filter());
  if (first !== undefined && query.value.trim() !== '') location.href = first.href;
});
box.hidden = false;
filter();
