// The exercises of a page: reads what is typed, asks bench.answer_right, which is written from the
// handbook's own Python source, and says in words what is right. Nothing is kept and nothing is
// counted; the way to the key opens once every answer was tried.
(function () {
  "use strict";
  const data = window.bench_practice;
  const forms = [...document.querySelectorAll("form[data-exercise]")];
  if (!data || forms.length === 0) return;
  const NUMBER = new RegExp(`^(?:${data.number})`, "i");

  function make(tag, attributes, ...inner) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(...inner);
    return made;
  }

  // Gives a number, or null for what is no number in the unit that is asked.
  function read(text, unit) {
    const typed = text.trim().replace("\u2212", "-");
    const found = NUMBER.exec(typed);
    if (!found) return null;
    const behind = typed.slice(found[0].length).trim().toLowerCase();
    if (behind && !data.units[unit].includes(behind)) return null;
    const value = Number(found[0].replace(",", "."));
    return Number.isFinite(value) ? value : null;
  }

  // What is said of one answer: [whether it was an answer, whether it is right, the words].
  function judged(asked, field) {
    if (asked.of) {
      const chosen = field.querySelector("input:checked");
      if (!chosen) return [false, false, "Nothing chosen yet."];
      const right = chosen.value === asked.right;
      return [true, right, right ? "Right." : "Not right: look at the task again."];
    }
    const text = field.value.trim();
    if (!text) return [false, false, "Nothing typed yet."];
    const value = read(text, asked.unit);
    if (value === null) {
      const unit = asked.shown ? `, in ${asked.shown}` : ", without a unit";
      return [false, false, `Found “${text}”, accepted: a number such as 12.5 or 12,5${unit}.`];
    }
    const right = bench.answer_right(value, asked.value, asked.tolerance, asked.side);
    if (right) return [true, true, "Right."];
    const near = bench.answer_right(value, asked.value, asked.tolerance, "both");
    return [true, false, near ? asked.past : "Not right: reckon it once more."];
  }

  function field(own, place, asked) {
    const name = `${own}-${place}`;
    const said = make("p", { class: "said", id: `${name}-said` });
    if (asked.of) {
      const radios = asked.of.map((word) =>
        make("label", {}, make("input", { type: "radio", name, value: word }), make("span", {}, word)),
      );
      const legend = make("legend", {}, asked.what);
      const choice = { class: "formchoice", "aria-describedby": `${name}-said` };
      return make("div", {}, make("fieldset", choice, legend, ...radios), said);
    }
    const input = make("input", {
      type: "text", inputmode: "decimal", size: "7", id: name, "aria-describedby": `${name}-unit ${name}-said`,
    });
    const unit = make("span", { class: "unit", id: `${name}-unit` }, asked.shown);
    const line = make("p", { class: "field" }, make("label", { for: name }, asked.what), " ", input, " ", unit);
    return make("div", {}, line, said);
  }

  function way(one) {
    const keys = one.asked.map((asked) =>
      make("li", {}, asked.of ? `${asked.what}: ${asked.right}` : `${asked.what}: ${asked.key}, right ${asked.near}`),
    );
    const steps = one.way.map((line) => make("li", {}, line));
    return [make("ol", {}, ...steps), make("p", {}, "The key:"), make("ul", {}, ...keys)];
  }

  function verdict(asked, wrong) {
    if (wrong.length === 0) return "Right.";
    return asked.length === 1 ? "Not right yet." : `Not right yet: ${wrong.join("; ")}.`;
  }

  function start(form) {
    const names = form.dataset.exercise.split("; ");
    const part = (name) => form.querySelector(`.${name}`);
    const folded = part("way");
    let at = 0;
    const current = () => data.exercises[names[at]];

    function check() {
      const { asked } = current();
      const places = [...part("asked").children];
      const found = asked.map((one, place) => judged(one, places[place].querySelector("fieldset, input")));
      found.forEach(([, right, words], place) => {
        places[place].querySelector(".said").textContent = words;
        const input = places[place].querySelector("input[type=text]");
        if (input && right) input.removeAttribute("aria-invalid");
        else if (input) input.setAttribute("aria-invalid", "true");
      });
      const tried = found.every(([answered]) => answered);
      const wrong = asked.filter((_, place) => !found[place][1]).map((one) => one.what);
      if (tried) folded.hidden = false;
      part("message").textContent = !tried
        ? "Not every answer can be read yet."
        : `${verdict(asked, wrong)} The way can be opened below.`;
    }

    function other() {
      at = (at + 1) % names.length;
      const one = current();
      part("task").replaceChildren(make("p", {}, one.task));
      part("rounding").textContent = one.rounding;
      part("asked").replaceChildren(...one.asked.map((asked, place) => field(form.id, place, asked)));
      part("again").querySelector("code").textContent = one.again;
      folded.hidden = true;
      folded.open = false;
      folded.lastElementChild.replaceChildren();
      part("message").textContent = at ? `Other numbers, of seed ${one.seed}.` : "The first numbers again.";
    }

    // The way stands in the page only while it is open.
    folded.addEventListener("toggle", () => {
      folded.lastElementChild.replaceChildren(...(folded.open && !folded.hidden ? way(current()) : []));
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      check();
    });
    form.querySelector("[data-other]").addEventListener("click", other);
    part("buttons").hidden = false;
  }

  forms.forEach(start);
})();
