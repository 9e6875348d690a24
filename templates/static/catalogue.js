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
