// Ramp and scale.
(function (kit) {
  "use strict";
  const { data, Refused, read, put, clear } = kit;
  const own = data && data.stiffness;
  const put_in = (words, facts) =>
    Object.entries(facts).reduce((said, [key, text]) => said.replaceAll(`{${key}}`, text), words);
  const plural = (count, one) => (count === 1 ? `1 ${one}` : `${count} ${one}s`);
  const capital = (text) => text[0].toUpperCase() + text.slice(1);

  // Gives the strips that were read: what was typed, and the same as lists for the procedures.
  function strips(form, names, angle) {
    const typed = names
      .map((fields) => fields.map((name) => read(form.elements[name])))
      .filter((strip) => strip.some((one) => one !== null));
    const places = typed.flatMap((strip, number) =>
      strip.flatMap((value, place) => (value === null ? [] : [{ number, place, value }])));
    return {
      typed,
      ends: new Set(places.map(({ place }) => own.ends[place])).size > 1,
      overhangs: places.map(({ value }) => bench.usual_overhang(bench.in_si(value, own.metres), angle)),
      numbers: places.map(({ number }) => number),
      faces: places.map(({ place }) => own.faces[place]),
    };
  }

  function ramp(strips) {
    if (!strips.typed.length) return null;
    const found = bench.ramp_found(strips.overhangs, strips.numbers, strips.faces, ...own.expected);
    const [mean, seen, spread, count, stock, next, apart, both] = found;
    const bends = bench.bending_length(mean);
    return {
      mean, seen, spread, count, apart, both,
      stock: bench.times_and_over(bends, stock),
      next: bench.times_and_over(bends, next),
      verdicts: bench.ramp_verdicts(strips.overhangs, found, own.limits),
    };
  }

  function weighing(form) {
    const typed = Object.fromEntries(
      ["piece_length", "piece_width", "pieces", "mass", "scale"].map((name) => [name, read(form.elements[name])]));
    if (typed.mass === null) return { typed, mass: null };
    if (typed.scale > typed.mass) {
      throw new Refused(form.elements.scale, `${typed.scale}`, `${own.mass} above 0, up to the mass`);
    }
    const scale = bench.in_si(typed.scale, own.kilograms);
    const mass = bench.weighed(
      [bench.in_si(typed.mass, own.kilograms)], [typed.pieces],
      [bench.in_si(typed.piece_length, own.metres)], [bench.in_si(typed.piece_width, own.metres)], [scale], own.cut);
    return { typed, mass, scale };
  }

  // Gives the numbers that the words hold, printed.
  function numbers(found, weighed, asked) {
    const { counted, us } = own;
    const said = {
      least: bench.length_printed(counted.least, us),
      most: bench.length_printed(counted.most, us),
      width: bench.length_printed(counted.width, us),
    };
    for (const name of ["allowed", "spread_allowed", "wanted", "mass_wanted"]) {
      said[name] = bench.share_printed(counted[name]);
    }
    if (found) {
      said.overhang = bench.length_printed(found.mean, us);
      said.apart = bench.share_printed(Math.abs(found.apart));
      said.spread = bench.share_printed(found.seen);
      said.asked = `${asked}`;
      said.more = plural(bench.strips_more(asked, found.count), "strip");
    }
    if (weighed.mass) {
      const area = bench.weighable_area(weighed.scale, weighed.mass[1], counted.mass_wanted);
      said.area = bench.area_printed(area, us);
      said.grams = bench.mass_printed(bench.mass_of_area(area, weighed.mass[1]), us);
    }
    return said;
  }

  function readSaid(found, strips) {
    if (!found) return "No strip was pushed over the ramp.";
    const spread = found.count > 1 ? `; the strips spread by ${bench.share_printed(found.seen)}` : "";
    return `${plural(found.count, "strip")}, ${plural(strips.overhangs.length, "reading")} along${spread}.`;
  }

  const banded = ([low, middle, high]) =>
    `${bench.length_printed(middle, own.us)}, ${bench.lengths_printed(low, high, own.us)}`;

  function across(form, angle, along) {
    const read = strips(form, [own.across], angle);
    const found = ramp(read);
    if (!found) return { typed: read.typed, said: "" };
    const bends = found.stock[1];
    const share = along
      ? `, ${bench.share_printed(bench.rigidity_share(bends, along.stock[1]))} of the rigidity along`
      : "";
    return { typed: read.typed, said: `Across the backbone: bending length ${bench.length_printed(bends, own.us)}${share}.` };
  }

  function commandLine(form, along, cross, weighed, angle, thickness) {
    const strip = (name) => (typed) => ` --${name} ${typed.map((one) => (one === null ? "" : one)).join("/")}${own.length}`;
    const { piece_length, piece_width, pieces, mass, scale } = weighed.typed;
    put(form, "command", "benchbinder stiffness" +
      along.typed.map(strip("overhang")).join("") +
      cross.typed.map(strip("across")).join("") +
      (angle === 41.5 ? "" : ` --angle ${angle}`) +
      (mass === null ? "" : ` --piece ${piece_length}x${piece_width}${own.length}=${mass}${own.mass} --pieces ${pieces} --scale ${scale}${own.mass}`) +
      (thickness === null ? "" : ` --thickness ${thickness}${own.length}`));
  }

  kit.answers.stiffness = function (form) {
    const angle = read(form.elements.angle);
    const along = strips(form, own.strips, angle);
    const found = ramp(along);
    const cross = across(form, angle, found);
    const weighed = weighing(form);
    const thickness = read(form.elements.thickness);
    clear(form);
    const asked = found ? bench.strips_wanted(found.spread, own.expected[1], own.counted.wanted) : 0;
    const said = numbers(found, weighed, asked);
    put(form, "read", readSaid(found, along));
    put(form, "summary", found ? `A strip hangs ${said.overhang} over the ramp.` : "");
    put(form, "overhang", found ? said.overhang : "");
    put(form, "bending_length", found ? banded(found.stock) : "");
    put(form, "next_strip", found ? banded(found.next) : "");
    put(form, "mass_per_area", weighed.mass ? bench.areal_printed(weighed.mass[0], weighed.mass[2], own.us) : "");
    if (found && weighed.mass) putRigidity(form, found, weighed, thickness);
    put(form, "across", cross.said);
    const verdicts = found ? found.verdicts : [];
    put(form, "verdicts", verdicts
      .map((code) => own.verdicts[code])
      .map(([name, words]) => `${capital(name)}: ${put_in(words, said)}`)
      .join(" "));
    put(form, "next", put_in(own.next[bench.next_reading(
      verdicts, found ? found.count : 0, found ? found.both : 0, along.ends, asked,
      weighed.mass ? bench.mass_error(...weighed.mass) : -1, own.counted.mass_wanted,
      cross.typed.length > 0, thickness !== null)], said));
    commandLine(form, along, cross, weighed, angle, thickness);
  };

  function putRigidity(form, found, weighed, thickness) {
    const ends = [0, 2].map((end) => bench.rigidity(weighed.mass[end], found.stock[end]));
    put(form, "rigidity", bench.rigidity_printed(...ends));
    if (thickness === null) return;
    const metres = bench.in_si(thickness, own.metres);
    put(form, "modulus", bench.modulus_printed(...ends.map((one) => bench.bending_modulus(one, metres))));
  }
})(window.bench_kit);
