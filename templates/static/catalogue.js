// Everything works without this script; it only saves steps.

// The layout is worked out again while readings are typed.
const sheet = document.querySelector('form[data-preview]');
if (sheet) {
  const result = document.getElementById('result');
  let waiting;
  let asked = 0;
  const workOut = async () => {
    const mine = ++asked;
    try {
      const answer = await fetch(sheet.dataset.preview, { method: 'POST', body: new FormData(sheet) });
      if (answer.ok && mine === asked) result.innerHTML = await answer.text();
    } catch {
      // without a connection the last result stays, and saving says what is wrong
    }
  };
  sheet.addEventListener('input', () => {
    clearTimeout(waiting);
    waiting = setTimeout(workOut, 350);
  });
}

// How a date is read is shown while the form is filled in, so that saving need not ask.
document.addEventListener('change', async (event) => {
  const box = event.target.closest?.('input[data-date]');
  if (!box) return;
  const says = document.getElementById(`${box.id}-says`);
  const shown = box.form.elements[`${box.name}-shown`];
  const understood = { says: '', edtf: '' };
  if (box.value.trim()) {
    try {
      const answer = await fetch(`${box.dataset.date}?text=${encodeURIComponent(box.value)}`);
      if (answer.ok) Object.assign(understood, await answer.json());
    } catch {
      return; // without a connection saving will show it
    }
  }
  if (says) says.textContent = understood.says;
  if (shown) shown.value = understood.edtf;
});

// One blank row more, without saving first.
for (const rows of document.querySelectorAll('fieldset[data-rows]')) {
  const last = rows.querySelector(':scope > .row:last-of-type');
  if (!last) continue;
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'quiet';
  button.textContent = 'Another row';
  button.addEventListener('click', () => {
    const all = rows.querySelectorAll(':scope > .row');
    const model = all[all.length - 1];
    const row = model.cloneNode(true);
    const from = `${rows.dataset.rows}-${all.length - 1}`;
    const to = `${rows.dataset.rows}-${all.length}`;
    row.querySelectorAll('.manage, .wrong').forEach((part) => part.remove());
    row.querySelectorAll('button').forEach((part) => part.remove());
    for (const part of row.querySelectorAll('*')) {
      for (const name of ['id', 'name', 'for', 'aria-describedby', 'data-rows']) {
        const value = part.getAttribute(name);
        if (value) part.setAttribute(name, value.replaceAll(from, to));
      }
      part.removeAttribute('aria-invalid');
      if (part.matches('input[type=checkbox]')) part.checked = false;
      else if (part.matches('input, textarea')) part.value = '';
      else if (part.matches('select')) part.selectedIndex = 0;
    }
    row.setAttribute('aria-label', row.getAttribute('aria-label').replace(/\d+.*/, `${all.length + 1}, not yet filled in`));
    model.after(row);
    row.querySelector('input:not([type=hidden]), select, textarea')?.focus();
  });
  rows.append(button);
}

// The items of a talk are put in order by dragging, or with Alt and an arrow key, and the programme
// is shown again as it then stands; without script the buttons and the numbers do the same.
let dragged = null;

const itemOf = (node) => node?.closest?.('form[data-programme] .turn');

async function inOrder(form, changes, keep) {
  const data = new FormData(form);
  for (const [name, value] of Object.entries(changes)) data.set(name, value);
  try {
    const answer = await fetch(form.action, { method: 'POST', body: data });
    if (!answer.ok) throw new Error(answer.statusText);
    const page = new DOMParser().parseFromString(await answer.text(), 'text/html');
    const fresh = page.getElementById('programme');
    const advice = page.getElementById('advice');
    document.getElementById('programme').replaceWith(fresh);
    if (advice) document.getElementById('advice')?.replaceWith(advice);
    giveHandles();
    fresh.querySelector(`.turn[data-item="${keep}"] .handle`)?.focus();
  } catch {
    form.requestSubmit(); // the page that comes back says what is wrong
  }
}

function giveHandles() {
  const items = document.querySelectorAll('form[data-programme] .turn');
  for (const [place, item] of items.entries()) {
    const handle = document.createElement('button');
    handle.type = 'button';
    handle.className = 'quiet handle';
    handle.textContent = '⠿';
    handle.title = 'Drag, or Alt with the arrow keys';
    handle.setAttribute('aria-label', `Move “${item.querySelector('h3').textContent.trim()}”, ${place + 1} of ${items.length}: Alt with the arrow keys`);
    handle.addEventListener('mousedown', () => { item.draggable = true; });
    handle.addEventListener('mouseup', () => { item.draggable = false; });
    item.querySelector('.places').prepend(handle);
  }
}
giveHandles();

document.addEventListener('keydown', (event) => {
  const item = itemOf(event.target);
  if (!item || !event.altKey || !['ArrowUp', 'ArrowDown'].includes(event.key)) return;
  event.preventDefault();
  const way = event.key === 'ArrowUp' ? 'up' : 'down';
  inOrder(item.closest('form'), { move: `${item.dataset.item} ${way}` }, item.dataset.item);
});

document.addEventListener('dragstart', (event) => {
  dragged = itemOf(event.target);
  dragged?.classList.add('dragged');
});

document.addEventListener('dragover', (event) => {
  const over = itemOf(event.target);
  if (!dragged || !over) return;
  event.preventDefault();
  const half = over.getBoundingClientRect();
  const below = event.clientY > half.top + half.height / 2;
  document.querySelectorAll('.turn.before, .turn.after').forEach((each) => each.classList.remove('before', 'after'));
  over.classList.add(below ? 'after' : 'before');
});

document.addEventListener('drop', (event) => {
  const over = itemOf(event.target);
  if (!dragged || !over) return;
  event.preventDefault();
  const items = [...over.parentElement.children].filter((each) => each !== dragged);
  items.splice(items.indexOf(over) + (over.classList.contains('after') ? 1 : 0), 0, dragged);
  const places = {};
  items.forEach((each, place) => { places[`place-${each.dataset.item}`] = place + 1; });
  inOrder(over.closest('form'), places, dragged.dataset.item);
});

document.addEventListener('dragend', () => {
  document.querySelectorAll('.turn').forEach((each) => each.classList.remove('dragged', 'before', 'after'));
  if (dragged) dragged.draggable = false;
  dragged = null;
});

// Slides are turned with the keys of a keyboard or a presenter's remote.
if (document.body.classList.contains('slides')) {
  const slides = [...document.querySelectorAll('.slide')];
  const here = () => {
    const middle = window.innerHeight / 2;
    return Math.max(0, slides.findIndex((slide) => slide.getBoundingClientRect().bottom > middle));
  };
  const steps = {
    ArrowRight: 1, ArrowDown: 1, PageDown: 1, ' ': 1, Enter: 1, ArrowLeft: -1, ArrowUp: -1, PageUp: -1, Backspace: -1,
  };
  document.addEventListener('keydown', (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (['Enter', ' '].includes(event.key) && event.target.closest('a')) return;
    let to = null;
    if (event.key in steps) to = here() + (event.key === ' ' && event.shiftKey ? -1 : steps[event.key]);
    else if (event.key === 'Home') to = 0;
    else if (event.key === 'End') to = slides.length - 1;
    else if (event.key === 'f') document.documentElement.requestFullscreen?.();
    else if (event.key === 'Escape' && !document.fullscreenElement) location.assign(document.querySelector('[data-leave]').href);
    if (to === null) return;
    event.preventDefault();
    to = Math.min(Math.max(to, 0), slides.length - 1);
    const slide = slides[to];
    for (const near of slides.slice(to, to + 3)) near.querySelector('img')?.setAttribute('loading', 'eager');
    history.replaceState(null, '', `#${slide.id}`);
    slide.scrollIntoView({ behavior: 'instant' });
    slide.focus({ preventScroll: true });
  });
}
