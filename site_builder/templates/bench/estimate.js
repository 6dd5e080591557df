// A blend as the softening model sees it: waxes and resins in the model's order, then softeners.
(function (kit) {
  "use strict";
  const { data, name, percent, warmth } = kit;

  function chosenMethod(parts, shares, named) {
    return named || bench.method_for(bench.share_of(shares, parts.map(({ id }) => data.materials[id].resin)));
  }

  function arranged(parts, shares, id) {
    const method = data.methods[id];
    const held = new Map(parts.map((one, place) => [one.id, shares[place]]));
    const inOrder = Object.keys(data.materials).filter((each) => held.has(each));
    const bodies = inOrder.filter((each) => !data.materials[each].softens);
    const order = [...bodies, ...inOrder.filter((each) => data.materials[each].softens)];
    const list = order.map((each) => held.get(each));
    const softener = bench.softener_share(list, bodies.length);
    const unmet = bodies.find((each) => !(each in method.ends));
    if (softener > data.figures.softener + 1e-12) {
      return { unknown: `a blend with ${percent(softener, 0)} softener; test the blend itself` };
    }
    if (unmet) return { unknown: `${name(unmet)} by ${method.name}; test it and add a row to facts.csv` };
    const terms = [...bodies, ...bodies.flatMap((a, i) => bodies.slice(i + 1).map((b) => `${a} ${b}`)), "softener"];
    return {
      method,
      order,
      list,
      model: [
        bodies.map((each) => method.ends[each]),
        bodies.map((a) => bodies.map((b) => method.bends[`${a} ${b}`] || 0)),
        method.slope,
        terms.map((row) => terms.map((term) => method.covariance[row][term] || 0)),
      ],
      bodies: bodies.length,
    };
  }

  function bandOf(blend) {
    return bench.estimate_of(blend.list, blend.bodies, ...blend.model);
  }

  function spoken(blend) {
    if (blend.unknown) return `Softening not known: ${blend.unknown}.`;
    const tests = `resting on ${blend.method.tests} tests of this shop`;
    return `Softens from ${warmth(bandOf(blend))} by ${blend.method.name} (95 % band, ${tests}).`;
  }

  kit.estimate = { chosenMethod, arranged, bandOf, spoken };
})(window.bench_kit);
