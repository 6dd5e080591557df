// A blend as the softening model sees it: waxes and resins in the model's order, then softeners.
(function (kit) {
  "use strict";
  const { data, name, percent, warmth } = kit;

  function chosenMethod(parts, shares, named) {
    return named || bench.method_for(bench.share_of(shares, parts.map(({ id }) => data.materials[id].resin)));
  }

  // The model cut down to the materials of a blend; with `others`, to those of both blends, each
  // in one order: `list` and `there` are their shares.
  function arranged(parts, shares, id, others = {}) {
    const method = data.methods[id];
    const held = new Map(parts.map((one, place) => [one.id, shares[place]]));
    const inOrder = Object.keys(data.materials).filter((each) => held.has(each) || each in others);
    const bodies = inOrder.filter((each) => !data.materials[each].softens);
    const order = [...bodies, ...inOrder.filter((each) => data.materials[each].softens)];
    const list = order.map((each) => held.get(each) || 0);
    const there = order.map((each) => others[each] || 0);
    const unknown = notKnown(method, bodies, [list, there]);
    if (unknown) return { unknown };
    const pairs = bodies.flatMap((a, i) => bodies.slice(i + 1).map((b) => `${a} ${b}`));
    const terms = [...bodies, ...pairs, ...pairs.map((pair) => `skew ${pair}`), "softener", "rig"];
    const square = (values) => bodies.map((a) => bodies.map((b) => values[`${a} ${b}`] || 0));
    return {
      method,
      order,
      list,
      there,
      model: [
        bodies.map((each) => method.ends[each]),
        square(method.bends),
        square(method.skews),
        method.slope,
        terms.map((row) => terms.map((term) => method.covariance[row][term] || 0)),
      ],
      shared: method.reference && terms.map((term) => method.reference.shared[term] || 0),
      bodies: bodies.length,
    };
  }

  function notKnown(method, bodies, lists) {
    const softener = Math.max(...lists.map((list) => bench.softener_share(list, bodies.length)));
    const unmet = bodies.find((each) => !(each in method.ends));
    if (softener > data.figures.softener + 1e-12) {
      return `a blend with ${percent(softener, 0)} softener; test the blend itself`;
    }
    return unmet ? `${name(unmet)} by ${method.name}; test it and add a row to facts.csv` : "";
  }

  function bandOf(blend) {
    return bench.estimate_of(blend.list, blend.bodies, ...blend.model);
  }

  function termsOf(blend, list) {
    return bench.blend_terms(bench.body_shares(list, blend.bodies), bench.softener_share(list, blend.bodies));
  }

  // A creep band wider than that says nothing.
  function tooWide(blend) {
    const half = bench.band_half_width(termsOf(blend, blend.list), blend.model[4]);
    return blend.method.creep && half > data.figures.creep_widest;
  }

  function counted(tests) {
    return `${tests} ${tests === 1 ? "test" : "tests"} of this shop`;
  }

  function spoken(blend) {
    if (blend.unknown) return `Softening not known: ${blend.unknown}.`;
    const by = blend.method.name;
    if (tooWide(blend)) {
      return `Softening not known: ${by} of this blend; hang a waxed plate of it under its own load and warm it in steps.`;
    }
    const tests = `resting on ${counted(blend.method.tests)}`;
    return `Softens from ${warmth(bandOf(blend))} by ${by} (95 % band, ${tests}).`;
  }

  kit.estimate = { chosenMethod, arranged, bandOf, termsOf, tooWide, counted, spoken };
})(window.bench_kit);
