// Adjust a pot.
(function (kit) {
  "use strict";
  const { data, Refused, read, rows, rowFields, readParts, name, percent, put, clear, fill } = kit;
  const HEIGHTS = { low: 0, middle: 0.5, high: 1 };

  // What something is made of: { material: share }.
  function makeUp(id) {
    if (data.materials[id]) return { [id]: 1 };
    const { parts } = data.blends[id];
    const shares = bench.part_shares(Object.values(parts));
    return Object.fromEntries(Object.keys(parts).map((each, place) => [each, shares[place]]));
  }

  // What may be added, with its stock; nought is no limit there. A typed nought leaves it out.
  function mayBeAdded(form, parts) {
    const asked = rowFields(form, "may").map((field) => ({ id: field.dataset.material, stock: read(field) }));
    const open = asked.filter(({ stock }) => stock !== 0);
    if (asked.length && !open.length) {
      throw new Refused(form.elements["add-may"], "", "a material or a blend whose stock is not nought", "May be added");
    }
    return open.length ? open : parts.map(({ id }) => ({ id, stock: null }));
  }

  function oldWax(form) {
    const { old, holds, least, highest, rest } = form.elements;
    const mass = read(old);
    const [low, high] = [read(least), read(highest)];
    if (mass === null) return null;
    if (low === null) throw new Refused(least, "", least.dataset.accepted, "Reclaimed wax holds, from");
    if (high === null || high < low) {
      throw new Refused(highest, highest.value.trim(), "a share no lower than the one before it, up to 100 %", "Reclaimed wax holds, up to");
    }
    if (holds.value === rest.value) {
      throw new Refused(rest, name(rest.value), "another material than the one it holds", "The rest is");
    }
    return { mass, holds: holds.value, rest: rest.value, typed: [low, high], ends: [low, high].map(bench.share_of_percent) };
  }

  function oldShares(old, height) {
    const [rest, held] = bench.old_wax_shares([old.ends[0]], [old.ends[1]], height);
    return { [old.rest]: rest, [old.holds]: held };
  }

  function questionOf(form) {
    const parts = readParts(form);
    const asked = {
      parts,
      pot: rows(form, "pot"),
      old: oldWax(form),
      may: mayBeAdded(form, parts),
      total: read(form.elements.total),
      step: read(form.elements.step),
    };
    const masses = [...asked.pot.map(({ part }) => part), asked.old ? asked.old.mass : 0];
    if (bench.whole_of(masses) > data.adjust.most) {
      throw new Refused(form.elements["add-pot"], `${bench.printed(bench.whole_of(masses), 0)} ${data.scale.shown}`, "a pot that can be weighed, up to 1000 kg", "In the pot");
    }
    if (!asked.pot.length && !asked.old && asked.total === null && asked.may.some(({ stock }) => stock === null)) {
      throw new Refused(form.elements.total, "", "a pot, a total, or the stock of every lot", "How much");
    }
    return asked;
  }

  // The question as lists, old wax at one height of its band; see formulas/correction.py.
  function lists(asked, height) {
    const pot = asked.pot.map(({ id, part }) => [makeUp(id), part]);
    if (asked.old) pot.push([oldShares(asked.old, height), asked.old.mass]);
    const added = asked.may.map(({ id }) => makeUp(id));
    const inside = [...pot.map(([shares]) => shares), ...added].flatMap(Object.keys);
    const materials = [...new Set([...asked.parts.map(({ id }) => id), ...inside])];
    const line = (shares) => materials.map((id) => shares[id] || 0);
    const wanted = Object.fromEntries(asked.parts.map(({ id, part }) => [id, part]));
    return {
      materials,
      names: materials.map(name),
      labels: asked.may.map(({ id }) => name(id)),
      parts: line(wanted),
      shares: bench.part_shares(line(wanted)),
      pot: bench.masses_with(line({}), pot.map(([shares]) => line(shares)), pot.map(([, mass]) => mass)),
      blends: added.map(line),
      stocks: asked.may.map(({ stock }) => stock || 0),
    };
  }

  function solved(asked, height) {
    const q = lists(asked, height);
    const { most, near } = data.adjust;
    const [masses, nearest, part] = bench.solved(q.pot, q.blends, q.stocks, q.shares, asked.total || 0, most, near);
    const reachable = masses.length > 0;
    const taken = reachable ? masses : nearest;
    const counts = bench.weighed_additions(taken, q.stocks, asked.step);
    return { ...q, reachable, masses: taken, part, counts, added: bench.on_the_scale(counts, asked.step) };
  }

  function listed(found, added, weight) {
    const said = found.labels.map((label, place) => (added[place] > 0 ? `${label}: ${weight(added[place])}` : ""));
    return said.filter(Boolean).join("; ") || "nothing";
  }

  function workingOf(found, asked, decimals, unit) {
    const { names, labels, parts, pot, blends, stocks, masses, counts } = found;
    const working = found.reachable
      ? bench.working_of(names, labels, parts, pot, blends, stocks, masses, asked.total || 0, asked.step, counts, decimals, unit)
      : bench.nearest_steps(names, labels, parts, pot, blends, stocks, masses, asked.step, counts, decimals, unit);
    return asked.old ? bench.told_with_old_wax(working) : working;
  }

  // The lines of a cross stand under the step that they belong to.
  function showSteps(form, working) {
    const items = [];
    for (const step of working) {
      if (step.startsWith("  ")) {
        const last = items[items.length - 1];
        const cross = last.querySelector("pre") || last.appendChild(document.createElement("pre"));
        cross.textContent += `${cross.textContent ? "\n" : ""}${step}`;
      } else {
        const item = document.createElement("li");
        item.append(...kit.inOneLine(step));
        items.push(item);
      }
    }
    form.querySelector("[data-rows=steps]").replaceChildren(...items);
  }

  function adjust(form) {
    const asked = questionOf(form);
    const unit = data.scale.shown;
    const decimals = bench.decimals_of(asked.step);
    const weight = (mass) => `${bench.printed(mass, decimals)} ${unit}`;
    const found = solved(asked, HEIGHTS.middle);
    const end = bench.whole_of([...found.pot, ...found.added]);
    clear(form);
    put(form, "summary", summary(found, weight, decimals));
    fill(form, "weights", found.labels
      .map((label, place) => [label, bench.printed(found.added[place], decimals), found.counts[place]])
      .filter(([, , count]) => count > 0).map(([label, mass]) => [label, mass]));
    put(form, "total", end > 0 ? weight(end) : "");
    if (!found.reachable) putPart(form, found, asked, weight);
    showResult(form, found, asked, end);
    if (asked.old) putEnds(form, asked, weight);
    const whole = bench.whole_of(found.pot);
    const drift = bench.scale_drift(found.pot, found.blends, found.masses, found.added);
    put(form, "notes", bench.correction_notes(whole, end, data.adjust.near, drift, Boolean(asked.old), decimals, unit).join(" "));
    showSteps(form, workingOf(found, asked, decimals, unit));
    put(form, "command", commandLine(form, asked));
  }

  function summary(found, weight, decimals) {
    const said = listed(found, found.added, weight);
    if (found.reachable) return said === "nothing" ? "Add nothing." : `Weigh ${said}.`;
    const { names, labels, parts, pot, blends, stocks, part } = found;
    const why = bench.why_not(names, labels, parts, pot, blends, stocks, part, data.adjust.most, decimals, data.scale.shown);
    return `Out of reach. ${why.join(" ")} Nearest: ${said === "nothing" ? "as it is" : said}.`;
  }

  function putPart(form, found, asked, weight) {
    const { pot, stocks, part } = found;
    const { most } = data.adjust;
    const whole = bench.whole_of(pot);
    if (!(whole > 0) || !bench.in_reach(part, whole, most)) return;
    const added = bench.on_the_scale(bench.weighed_additions(part.slice(1), stocks, asked.step), asked.step);
    const taken = bench.part_of_pot(part, pot);
    put(form, "part", `Take ${weight(taken)} of the pot alone: with ${listed(found, added, weight)}` +
      ` it comes to the ratio, ${weight(bench.whole_of([taken, ...added]))} in all. Keep the rest apart.`);
  }

  function showResult(form, found, asked, end) {
    if (!(end > 0)) return;
    const reached = (q) => bench.shares_with(q.pot, q.blends, found.added);
    const ends = asked.old ? [HEIGHTS.low, HEIGHTS.high].map((height) => reached(lists(asked, height))) : null;
    const low = ends && bench.smaller_of(...ends);
    const high = ends && bench.larger_of(...ends);
    const shares = reached(found);
    fill(form, "result", found.names.map((each, place) =>
      [each, percent(found.shares[place], 2), percent(shares[place], 2)]));
    put(form, "spread", ends ? found.names.map((each, place) =>
      `${each} ${bench.printed(100 * low[place], 2)} to ${percent(high[place], 2)}`).join("; ") : "");
  }

  function putEnds(form, asked, weight) {
    const ends = ["low", "high"].map((end) => [end, solved(asked, HEIGHTS[end])]);
    for (const [end, found] of ends) {
      put(form, end, listed(found, found.added, weight) + (found.reachable ? "" : " (the nearest)"));
    }
    const both = bench.smaller_of(...ends.map(([, found]) => found.added));
    const said = listed(ends[0][1], both, weight);
    put(form, "both", said === "nothing"
      ? "nothing. No addition serves both ends: test a sample before anything goes in."
      : `${said}. Add what serves both ends first, test, and then go on in small lots.`);
  }

  function commandLine(form, asked) {
    const { unit } = data.scale;
    const blend = form.elements.blend.value;
    const said = [blend ? `--to ${blend}` : asked.parts.map(({ id, part }) => `--parts ${id}=${part}`).join(" ")];
    said.push(...asked.pot.map(({ id, part }) => `--pot ${id}=${part}${unit}`));
    if (asked.old) {
      const { mass, holds, rest, typed } = asked.old;
      said.push(`--pot reclaimed=${mass}${unit} --holds ${holds}=${typed[0]}-${typed[1]}% --rest ${rest}`);
    }
    if (rowFields(form, "may").length) {
      said.push(...asked.may.map(({ id, stock }) => `--add ${id}${stock === null ? "" : `=${stock}${unit}`}`));
    }
    if (asked.total !== null) said.push(`--total ${asked.total}${unit}`);
    return `benchbinder adjust ${said.join(" ")}`;
  }

  kit.answers.adjust = adjust;
})(window.bench_kit);
