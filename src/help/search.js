/* global document, location */
/** Filters the list of functions while a person types. Without this script the list is whole. */
const box = document.getElementById('search');
const query = document.getElementById('query');
const found = document.getElementById('found');
const items = [...document.querySelectorAll('[data-search]')];

function filter() {
  const words = query.value.toLowerCase().split(/\s+/).filter(Boolean);
  const hits = items.filter((item) => {
    const fits = words.every((word) => item.dataset.search.includes(word));
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

query.addEventListener('input', filter);
query.addEventListener('keydown', (event) => {
  if (event.key === 'Escape') {
    query.value = '';
    filter();
  }
  if (event.key !== 'Enter') return;
  event.preventDefault();
  const first = filter()[0];
  if (first !== undefined && query.value.trim() !== '')
    location.href = first.querySelector('a').href;
});
box.hidden = false;
filter();
