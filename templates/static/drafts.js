// Unsaved typing is kept in this browser, whatever happens to the connection, the tablet or the
// session; it is offered again to the same member on the same page, and forgotten once saved.

const DAYS = 30;
const PREFIX = 'typing of ';
const member = document.body.dataset.member;
const mine = `${PREFIX}${member} at `;

const stored = (key) => {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
};

const forgetOld = () => {
  const oldest = Date.now() - DAYS * 86_400_000;
  for (const key of Object.keys(localStorage)) {
    if (key.startsWith(PREFIX) && !(stored(key)?.at > oldest)) localStorage.removeItem(key);
  }
};

const isKept = (name, value) =>
  typeof value === 'string' && !['csrf_token', 'revision'].includes(name) && !['password', 'again', 'present'].includes(name);

const typedIn = (form) => [...new FormData(form)].filter(([name, value]) => isKept(name, value));

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

// Rows that were added while typing are added again before they are filled.
const makeRoom = (form, names) => {
  for (const name of names) {
    for (let tries = 0; !form.elements[name] && tries < 60; tries += 1) {
      const parts = name.split('-');
      const sets = [...form.querySelectorAll('fieldset[data-rows]')];
      const set = sets
        .filter((each) => name.startsWith(`${each.dataset.rows}-`))
        .sort((a, b) => b.dataset.rows.length - a.dataset.rows.length)[0];
      const button = set?.querySelector(':scope > button[type=button]');
      if (!button || parts.length < 3) break;
      button.click();
    }
  }
};

const fill = (form, entries) => {
  makeRoom(form, entries.map(([name]) => name));
  for (const box of form.querySelectorAll('input[type=checkbox], input[type=radio]')) box.checked = false;
  const seen = new Map();
  for (const [name, value] of entries) {
    const found = form.elements[name];
    if (!found) continue;
    const parts = found instanceof RadioNodeList ? [...found] : [found];
    const ticked = parts.find((each) => ['checkbox', 'radio'].includes(each.type) && each.value === value);
    if (ticked) {
      ticked.checked = true;
      continue;
    }
    const place = seen.get(name) ?? 0;
    seen.set(name, place + 1);
    const part = parts.filter((each) => !['checkbox', 'radio'].includes(each.type))[place];
    if (part && part.type !== 'file') part.value = value;
  }
  form.dispatchEvent(new Event('input', { bubbles: true }));
};

const offer = (form, key, draft) => {
  const notice = document.createElement('div');
  notice.className = 'notice';
  notice.setAttribute('role', 'status');
  const says = document.createElement('p');
  const when = new Date(draft.at).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
  says.textContent = `What you typed here on ${when} was not saved.`;
  const actions = document.createElement('p');
  actions.className = 'actions';
  const button = (words, act) => {
    const made = document.createElement('button');
    made.type = 'button';
    made.className = 'quiet';
    made.textContent = words;
    made.addEventListener('click', () => {
      act();
      notice.remove();
    });
    actions.append(made);
  };
  button('Put it back into the form', () => fill(form, draft.entries));
  button('Throw it away', () => localStorage.removeItem(key));
  notice.append(says, actions);
  form.prepend(notice);
};

const keep = (form) => {
  const key = mine + location.pathname;
  const untouched = typedIn(form);
  const draft = stored(key);
  if (draft && !same(draft.entries, untouched)) offer(form, key, draft);
  let waiting;
  const write = () => {
    const entries = typedIn(form);
    if (same(entries, untouched)) return;
    try {
      localStorage.setItem(key, JSON.stringify({ at: Date.now(), entries }));
    } catch {
      // a browser without room or leave to keep anything: saving still works
    }
  };
  form.addEventListener('input', (event) => {
    if (!event.isTrusted) return;
    clearTimeout(waiting);
    waiting = setTimeout(write, 400);
  });
  form.addEventListener('submit', write);
  addEventListener('pagehide', write);
};

if (member) {
  forgetOld();
  const kept = document.body.dataset.kept;
  if (kept) localStorage.removeItem(mine + kept);
  const forms = [...document.querySelectorAll('main form[method=post]')];
  const form = forms.find(
    (each) => each.querySelector('input[name=revision]') && each.querySelector('textarea, input[type=text]'),
  );
  if (form) keep(form);
}
