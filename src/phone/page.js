"use strict";
(() => {
  const all = (selector, inside = document) => [...inside.querySelectorAll(selector)];
  const one = (selector, inside = document) => inside.querySelector(selector);
  const page = document.body.dataset;
  const digits = Number(page.digits);
  let told = false;

  // What is kept stays on this device. Where that is switched off, it is told once.
  const keep = {
    read(key) {
      try { return JSON.parse(localStorage.getItem("spence:" + key)) || {}; } catch { return {}; }
    },
    write(key, value) {
      try { localStorage.setItem("spence:" + key, JSON.stringify(value)); } catch {
        if (!told) { told = true; one("#storage").hidden = false; }
      }
    },
  };
  keep.write("here", {});

  // "2,79 EUR", "€ 2.79": the number alone.
  const amount = text => String(text || "").replace(page.currency, "").replace(/[\s€£$]/g, "").replace(",", ".");
  // No more digits after the point than the currency has: a file with one would be refused.
  const price = digits > 0 ? new RegExp("^\\d+(\\.\\d{1," + digits + "})?$") : /^\d+$/;
  const minor = text => {
    const plain = amount(text);
    return price.test(plain) ? Math.round(Number(plain) * 10 ** digits) : null;
  };
  const money = sum => (sum / 10 ** digits).toFixed(digits) + " " + page.currency;
  // A basic string of TOML: the escapes of JSON, and DEL.
  const quoted = text => JSON.stringify(String(text)).replace(/\x7f/g, "\\u007f");

  for (const trip of all(".trip")) {
    const key = "trip:" + trip.dataset.hash;
    const state = Object.assign({ ticked: {}, other: {}, copied: {} }, keep.read(key));
    const lines = all(".line", trip);
    const kind = index => (state.other[index] || {}).how || "listed";
    const settled = index => Boolean(state.ticked[index]);

    const show = () => {
      let sum = 0, unknown = 0, gone = 0;
      for (const shop of all(".shop", trip)) {
        let visited = false;
        for (const section of all(".section", shop)) {
          let left = 0, missed = 0;
          for (const line of all(".line", section)) {
            const index = line.dataset.i, ticked = settled(index), other = state.other[index] || {};
            one("input", line).checked = ticked;
            line.classList.toggle("done", ticked);
            one(".how", line).textContent = { none: "Not got", else: "Something else: " + (other.text || ""), other: "Otherwise: " + (other.amount || "as listed") }[kind(index)] || "";
            if (other.price && minor(other.price) === null) one(".how", line).textContent += "; price not understood, write it as " + (2.79).toFixed(digits);
            if (!ticked) { left += 1; continue; }
            if (kind(index) === "none") missed += 1;
            visited = true;
            if (kind(index) === "none") continue;
            const typed = minor(other.price);
            const listed = line.dataset.cost === "" || kind(index) === "else" || (kind(index) === "other" && other.amount) ? null : Number(line.dataset.cost);
            const cost = kind(index) === "listed" || typed === null ? listed : typed;
            if (cost === null) unknown += 1; else sum += cost;
          }
          one(".left", section).textContent = [left && left + " left", missed && missed + " not got"].filter(Boolean).join(", ") || "all got";
          gone += missed;
        }
        if (visited) sum += Number(shop.dataset.fare);
      }
      const open = lines.filter(line => !settled(line.dataset.i)).length;
      one(".sum", trip).textContent = "Ticked so far: " + money(sum) + (unknown ? " and " + unknown + " without a price" : "") + ". " + (open ? open + " left to get." : "Nothing is left to get.") + (gone ? " " + gone + " not got." : "");
    };
    const save = () => { keep.write(key, state); show(); };

    for (const line of lines) {
      const index = line.dataset.i;
      one("input", line).addEventListener("change", event => {
        if (event.target.checked) state.ticked[index] = 1; else { delete state.ticked[index]; delete state.copied[index]; }
        save();
      });
      const details = one("details", line);
      details.addEventListener("toggle", () => {
        if (!details.open || one(".other", details)) return;
        details.append(one("#other").content.cloneNode(true));
        const form = one(".other", details), other = state.other[index] || {};
        for (const radio of all("[type=radio]", form)) {
          radio.name = key + index;
          radio.checked = radio.value === kind(index);
        }
        for (const field of all("[data-field]", form)) field.value = other[field.dataset.field] || "";
        const fields = () => { for (const part of all("[data-for]", form)) part.hidden = !part.dataset.for.split(" ").includes(kind(index)); };
        fields();
        form.addEventListener("input", () => {
          const now = { how: one("[type=radio]:checked", form).value };
          for (const field of all("[data-field]", form)) now[field.dataset.field] = field.value.trim();
          state.other[index] = now;
          if (now.how === "listed") delete state.other[index]; else state.ticked[index] = 1;
          delete state.copied[index];
          fields();
          save();
        });
      });
    }

    const text = chosen => {
      const also = [], parts = [];
      for (const line of chosen) {
        const index = line.dataset.i, other = state.other[index] || {}, how = kind(index);
        const rows = ["[[line]]", "food = " + quoted(line.dataset.food)];
        if (how === "none" || how === "else") {
          rows.push("without = true");
          if (how === "else" && other.text) also.push(quoted(other.text + (other.price ? " at " + amount(other.price) : "")));
        } else {
          rows.push("packs = [" + JSON.parse(line.dataset.packs).map(quoted).join(", ") + "]");
          if (how === "other" && other.amount) rows.push("instead = " + quoted(other.amount));
          if (how === "other" && other.price) rows.push("paid = " + quoted(amount(other.price)));
          if (how === "other" && other.until) rows.push("until = " + other.until);
        }
        parts.push(rows.join("\n"));
      }
      return "from = " + page.from + "\ntrip = " + trip.dataset.on + "\nhash = " + quoted(trip.dataset.hash) + "\nalso = [" + also.join(", ") + "]\n\n" + parts.join("\n\n") + "\n";
    };
    one(".copy", trip).addEventListener("click", async () => {
      const counted = lines.filter(line => line.dataset.book);
      const chosen = counted.filter(line => settled(line.dataset.i) && !state.copied[line.dataset.i]);
      const handed = counted.filter(line => state.copied[line.dataset.i]).length;
      const left = counted.length - chosen.length - handed;
      const said = one(".said", trip), field = one("textarea", trip);
      if (!chosen.length) {
        said.textContent = handed ? "Nothing more is ticked: " + handed + " copied before, " + left + " left out." : "Nothing is ticked yet.";
        return;
      }
      const file = text(chosen);
      field.value = file;
      let copied = true;
      try { await navigator.clipboard.writeText(file); } catch { copied = false; }
      if (!copied) { field.hidden = false; field.focus(); field.select(); }
      for (const line of chosen) state.copied[line.dataset.i] = 1;
      one(".again", trip).hidden = false;
      said.textContent = (copied ? "Copied " : "Copying was refused; the text below is selected: ") + chosen.length + (chosen.length === 1 ? " line; " : " lines; ") + left + " left out. At home: spence receive - and paste.";
      save();
    });
    one(".again", trip).addEventListener("click", () => {
      state.copied = {};
      one(".again", trip).hidden = true;
      one(".said", trip).textContent = "The next copy takes every ticked line again.";
      save();
    });
    one(".again", trip).hidden = !Object.keys(state.copied).length;
    show();
  }

  const hide = one("#hide");
  const hidden = on => {
    document.body.classList.toggle("hide", on);
    hide.setAttribute("aria-pressed", String(on));
  };
  hide.addEventListener("click", () => {
    const on = !document.body.classList.contains("hide");
    keep.write("hide", { on });
    hidden(on);
  });
  hidden(Boolean(keep.read("hide").on));

  // The guide: ticks, the clock with what it was shifted by, timers that outlive a reload.
  const clock = at => String(at.getHours()).padStart(2, "0") + ":" + String(at.getMinutes()).padStart(2, "0");
  const sessions = all(".session").map(session => {
    const key = "guide:" + session.dataset.hash;
    const state = Object.assign({ ticked: {}, shift: 0, timers: {} }, keep.read(key));
    const start = new Date(session.dataset.start);
    const steps = all(".step", session);
    const at = step => new Date(start.getTime() + (Number(step.dataset.at) + state.shift) * 60000);
    const next = () => {
      const open = steps.filter(step => !state.ticked[step.dataset.i]);
      const begun = open.length < steps.length, now = Date.now();
      const running = now >= start.getTime() && steps.length && now <= at(steps[steps.length - 1]).getTime();
      const step = (!begun && running && open.find(step => at(step).getTime() >= now)) || open[0];
      const number = step && one(".no", step).textContent, dish = step && one(".dish", step);
      const words = step ? "Next, " + clock(at(step)) + ": " + (number && number + " ") + (dish ? dish.textContent + ": " : "") + one(".text", step).textContent : "Everything is done.";
      // Written anew only where it changed: a screen reader would read it out each second.
      if (one(".next", session).textContent !== words) one(".next", session).textContent = words;
    };
    const show = () => {
      for (const step of steps) {
        const ticked = Boolean(state.ticked[step.dataset.i]);
        one("input", step).checked = ticked;
        step.classList.toggle("done", ticked);
        one("time", step).textContent = clock(at(step));
        for (const time of all("[data-min]", step)) time.textContent = clock(new Date(start.getTime() + (Number(time.dataset.min) + state.shift) * 60000));
      }
      next();
      one(".shifted", session).textContent = state.shift ? "Shifted by " + state.shift + " min" : "";
    };
    const save = () => { keep.write(key, state); show(); };
    for (const button of all("[data-shift]", session)) button.addEventListener("click", () => { state.shift += Number(button.dataset.shift); save(); });
    for (const step of steps) {
      one("input", step).addEventListener("change", event => {
        if (event.target.checked) state.ticked[step.dataset.i] = 1; else delete state.ticked[step.dataset.i];
        save();
      });
      const button = one(".timer button", step);
      if (button) button.addEventListener("click", () => {
        if (state.timers[step.dataset.i]) delete state.timers[step.dataset.i];
        else state.timers[step.dataset.i] = Date.now() + Number(button.dataset.wait) * 60000;
        save(); count();
      });
    }
    const count = () => {
      for (const step of steps) {
        const timer = one(".timer", step), end = state.timers[step.dataset.i];
        if (!timer) continue;
        const button = one("button", timer), said = one("p", timer);
        const rest = end ? Math.ceil((end - Date.now()) / 1000) : null;
        const over = rest !== null && rest <= 0;
        button.textContent = end ? "Stop the timer" : "Timer: " + button.dataset.wait + " min";
        const words = over ? "Time is up. " + timer.dataset.then : rest === null ? "" : Math.floor(rest / 60) + ":" + String(rest % 60).padStart(2, "0");
        if (over && said.textContent !== words && navigator.vibrate) navigator.vibrate(400);
        if (said.textContent !== words) said.textContent = words;
        said.setAttribute("aria-live", over ? "assertive" : "off");
        said.classList.toggle("over", over);
      }
    };
    show(); count();
    return () => { next(); count(); };
  });
  setInterval(() => sessions.forEach(count => count()), 1000);

  // The screen stays on while the list is open, where the browser can.
  const stay = async () => {
    try { if (navigator.wakeLock && document.visibilityState === "visible") await navigator.wakeLock.request("screen"); } catch { /* it may go dark */ }
  };
  document.addEventListener("visibilitychange", stay);
  stay();
})();
