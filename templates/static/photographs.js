// Photographs: sent one by one with progress, and marks moved on them. Without this script the
// forms do the same: all files at once, and places typed as numbers.

// --- sending -----------------------------------------------------------------------------------

const sending = document.querySelector('form[data-sending]');
if (sending) {
  const box = sending.querySelector('input[type=file]');
  const list = document.getElementById('sending');
  const button = sending.querySelector('button');
  let waiting = [];

  const line = (file) => {
    const item = document.createElement('li');
    const bar = document.createElement('progress');
    const says = document.createElement('span');
    bar.max = 1;
    bar.value = 0;
    bar.setAttribute('aria-label', file.name);
    item.append(`${file.name} `, bar, says);
    list.append(item);
    return { file, bar, says, done: false };
  };

  // What the quilt has already is known by its hash and not sent again.
  const isKept = async (file) => {
    if (!crypto.subtle) return false;
    const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', await file.arrayBuffer()));
    const text = [...hash].map((octet) => octet.toString(16).padStart(2, '0')).join('');
    const answer = await fetch(`${sending.dataset.sending}?sha256=${text}`);
    return answer.ok && (await answer.json()).kept;
  };

  const send = (entry) => new Promise((resolve, reject) => {
    const data = new FormData();
    data.set('csrf_token', sending.elements.csrf_token.value);
    data.set('photographs', entry.file);
    const request = new XMLHttpRequest();
    request.open('POST', sending.action);
    request.setRequestHeader('Accept', 'application/json');
    request.upload.addEventListener('progress', (event) => {
      if (event.lengthComputable) entry.bar.value = 0.95 * (event.loaded / event.total);
    });
    request.addEventListener('load', () => {
      if (request.status === 413) {
        resolve({ refused: ['is too large to be sent.'] });
        return;
      }
      try {
        resolve(JSON.parse(request.responseText));
      } catch {
        const signedOut = new URL(request.responseURL).pathname !== new URL(sending.action).pathname;
        reject(new Error(signedOut ? 'was not sent: sign in again in another window, then go on.' : 'could not be kept just now: go on in a while.'));
      }
    });
    request.addEventListener('error', () => reject(new Error('was cut off: go on when the connection is back.')));
    request.send(data);
  });

  const one = async (entry) => {
    try {
      if (await isKept(entry.file)) {
        entry.says.textContent = ' is here already.';
      } else {
        const answer = await send(entry);
        entry.says.textContent = answer.refused.length ? ` ${answer.refused[0]}` : ' is kept.';
        entry.refused = answer.refused.length > 0;
      }
      entry.bar.value = 1;
      entry.done = true;
    } catch (error) {
      entry.says.textContent = ` ${error.message}`;
    }
    entry.tried = true;
  };

  // What is typed about other photographs would be gone if the page were asked for anew.
  const typing = () => [...document.querySelectorAll('form:not([data-sending]) :is(input, textarea)')].some(
    (box) => (box.type === 'checkbox' ? box.checked !== box.defaultChecked : box.value !== box.defaultValue));
  const offer = () => {
    const item = document.createElement('li');
    const link = Object.assign(document.createElement('a'), { href: location.href, textContent: 'Show them' });
    item.append('Save what you have typed below first. ', link);
    list.append(item);
  };

  let running = false;
  const all = async () => {
    if (running) return;
    running = true;
    button.disabled = true;
    for (const entry of waiting) entry.tried = false;
    for (let entry; (entry = waiting.find((each) => !each.done && !each.tried));) await one(entry);
    running = false;
    button.disabled = false;
    const left = waiting.filter((entry) => !entry.done);
    button.textContent = left.length ? `Go on with ${left.length}` : 'Keep them';
    if (!left.length && !waiting.some((entry) => entry.refused)) {
      if (typing()) offer();
      else location.reload();
    }
    waiting = left;
  };

  const begin = (files) => {
    const pictures = files.filter((file) => /^image\//.test(file.type) || /\.(hei[cf]|tiff?)$/i.test(file.name));
    waiting.push(...pictures.map(line));
    box.value = '';
    if (!pictures.length) list.append(Object.assign(document.createElement('li'), { textContent: 'There is no picture among these files.' }));
    all();
  };

  sending.addEventListener('submit', (event) => {
    if (!box.files.length && !waiting.length) return;
    event.preventDefault();
    if (box.files.length) begin([...box.files]);
    else all();
  });

  // Files or whole folders dropped on the form.
  const inFolder = (entry) => new Promise((resolve) => {
    if (entry.isFile) {
      entry.file((file) => resolve([file]), () => resolve([]));
      return;
    }
    const reader = entry.createReader();
    const found = [];
    const more = () => reader.readEntries(async (entries) => {
      if (!entries.length) {
        resolve((await Promise.all(found.map(inFolder))).flat());
        return;
      }
      found.push(...entries);
      more();
    }, () => resolve([]));
    more();
  });
  sending.addEventListener('dragover', (event) => {
    event.preventDefault();
    sending.classList.add('over');
  });
  sending.addEventListener('dragleave', () => sending.classList.remove('over'));
  sending.addEventListener('drop', async (event) => {
    event.preventDefault();
    sending.classList.remove('over');
    const entries = [...event.dataTransfer.items].map((item) => item.webkitGetAsEntry?.()).filter(Boolean);
    const files = entries.length ? (await Promise.all(entries.map(inFolder))).flat() : [...event.dataTransfer.files];
    begin(files);
  });
  sending.querySelector('.drop').hidden = false;
}

// What the record proposes for those who cannot see a picture is put in at a press.
for (const button of document.querySelectorAll('button[data-propose]')) button.hidden = false;
document.addEventListener('click', (event) => {
  const button = event.target.closest?.('button[data-propose]');
  if (!button) return;
  const box = document.getElementById(button.dataset.for);
  box.value = button.dataset.propose;
  box.dispatchEvent(new Event('input', { bubbles: true }));
  box.focus();
});

// --- marks on a picture ------------------------------------------------------------------------

for (const drawing of document.querySelectorAll('svg[data-places]')) {
  const form = document.getElementById(drawing.dataset.places);
  const step = Number(drawing.dataset.step);
  const frame = drawing.viewBox.baseVal;
  const digits = step < 1 ? 3 : 1;
  const through = drawing.querySelector('[data-through]');
  const marks = [...drawing.querySelectorAll('.mark')];
  const boxes = (mark) => ['x', 'y'].map((axis) => form.elements[`${mark.dataset.name}-${axis}`]);
  const number = (text) => {
    const parts = /^\s*(?:(\d+)\s+)?(\d+)\/(\d+)\s*$/.exec(text);
    if (parts) return Number(parts[1] ?? 0) + Number(parts[2]) / Number(parts[3]);
    return text.trim() === '' ? NaN : Number(text.replace(',', '.'));
  };
  const place = (mark) => boxes(mark).map((box) => number(box.value));

  const draw = () => {
    for (const mark of marks) {
      const [x, y] = place(mark);
      const known = Number.isFinite(x) && Number.isFinite(y);
      mark.classList.toggle('unset', !known);
      if (!known) continue;
      mark.setAttribute('transform', `translate(${x} ${y})`);
      mark.setAttribute('aria-label', `${mark.dataset.label}, ${x.toFixed(1)} across, ${y.toFixed(1)} down: arrow keys move it, with Shift farther`);
    }
    const corners = marks.filter((mark) => !mark.classList.contains('card') && !mark.classList.contains('unset'));
    through.setAttribute('points', corners.map((mark) => place(mark).join(',')).join(' '));
  };

  let asked;
  const tell = () => {
    if (!form.dataset.distance) return;
    clearTimeout(asked);
    asked = setTimeout(async () => {
      const data = new URLSearchParams();
      for (const mark of marks) for (const box of boxes(mark)) data.set(box.name, box.value);
      try {
        const answer = await fetch(`${form.dataset.distance}?${data}`);
        if (answer.ok) document.getElementById('distance').textContent = (await answer.json()).says;
      } catch {
        // without a connection the last distance stays, and keeping it works it out again
      }
    }, 150);
  };

  // A corner may lie a little outside of what the camera caught; nothing else may.
  const reach = Number(drawing.dataset.reach ?? 0) * Math.max(frame.width, frame.height);
  const move = (mark, x, y) => {
    const beyond = mark.classList.contains('card') ? 0 : reach;
    const within = [[x, frame.width], [y, frame.height]].map(([value, most]) => Math.min(Math.max(value, -beyond), most + beyond));
    boxes(mark).forEach((box, axis) => {
      box.value = Number(within[axis].toFixed(digits));
      box.dispatchEvent(new Event('input', { bubbles: true }));
    });
  };

  const at = (event) => {
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
    return [point.x, point.y];
  };

  for (const mark of marks) {
    mark.setAttribute('tabindex', '0');
    mark.setAttribute('role', 'button');
    let grip = null;
    mark.addEventListener('pointerdown', (event) => {
      const [x, y] = at(event);
      const [mx, my] = place(mark);
      grip = [mx - x, my - y];
      mark.setPointerCapture(event.pointerId);
      mark.focus();
      event.preventDefault();
    });
    mark.addEventListener('pointermove', (event) => {
      if (!grip) return;
      const [x, y] = at(event);
      move(mark, x + grip[0], y + grip[1]);
    });
    for (const end of ['pointerup', 'pointercancel']) mark.addEventListener(end, () => { grip = null; });
    mark.addEventListener('keydown', (event) => {
      const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
      const way = ways[event.key];
      if (!way) return;
      event.preventDefault();
      const far = step * (event.shiftKey ? 10 : 1);
      const [x, y] = place(mark);
      move(mark, x + way[0] * far, y + way[1] * far);
    });
  }

  form.addEventListener('input', () => {
    draw();
    tell();
  });
  for (const button of form.querySelectorAll('button[data-reveal]')) {
    button.hidden = false;
    button.addEventListener('click', () => {
      const mark = marks.find((each) => each.dataset.name === button.dataset.reveal);
      if (mark.classList.contains('unset')) move(mark, frame.width / 2, frame.height * 0.05);
      mark.focus();
    });
  }
  draw();
}
