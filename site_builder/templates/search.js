"use strict";
/* Finds leaves by their words: BM25 over the index in window.bench_index. The last word of a
   question also counts as the start of a word. */
(() => {
  const { leaves, lengths, words } = window.bench_index;
  const all = Object.keys(words).sort();
  const average = lengths.reduce((sum, length) => sum + length, 0) / Math.max(1, lengths.length);
  const SATURATION = 1.2, LENGTH = 0.75, START = 0.6;

  function cut(text) {
    const bare = text.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "");
    return (bare.match(/[\p{L}\p{N}]+/gu) || []).map((word) =>
      word.length > 3 && word.endsWith("s") && !word.endsWith("ss") ? word.slice(0, -1) : word);
  }

  function starting(start) {
    let low = 0, high = all.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (all[middle] < start) low = middle + 1; else high = middle;
    }
    const found = [];
    while (low < all.length && all[low].startsWith(start)) found.push(all[low++]);
    return found;
  }

  // How often a word stands in each leaf; words that it only starts count for less, all as one.
  function counts(word, unfinished) {
    const found = new Map();
    for (const term of unfinished ? starting(word) : [word]) {
      const list = Object.hasOwn(words, term) ? words[term] : [];
      for (let n = 0; n < list.length; n += 2) {
        const count = list[n + 1] * (term === word ? 1 : START);
        found.set(list[n], (found.get(list[n]) || 0) + count);
      }
    }
    return found;
  }

  function find(question) {
    const asked = cut(question), scores = new Map();
    asked.forEach((word, place) => {
      const found = counts(word, place === asked.length - 1);
      const rarity = Math.log(1 + (lengths.length - found.size + 0.5) / (found.size + 0.5));
      found.forEach((count, leaf) => {
        const long = SATURATION * (1 - LENGTH + LENGTH * lengths[leaf] / average);
        const [sum, hits] = scores.get(leaf) || [0, 0];
        scores.set(leaf, [sum + rarity * count * (SATURATION + 1) / (count + long), hits + 1]);
      });
    });
    return [...scores].filter(([, [, hits]]) => hits === asked.length)
      .sort((a, b) => b[1][0] - a[1][0] || a[0] - b[0]).map(([leaf]) => leaf);
  }

  function line(leaf, inOneFile) {
    const [number, slug, title, summary] = leaves[leaf];
    const item = document.createElement("li"), link = document.createElement("a");
    const label = document.createElement("span"), told = document.createElement("span");
    link.href = inOneFile ? "#" + slug : slug + ".html";
    label.className = "number";
    label.textContent = number;
    told.className = "told";
    told.textContent = summary;
    link.append(label, " ", title);
    item.append(link, told);
    return item;
  }

  window.bench_search = { cut, find };
  const form = document.querySelector("form.find");
  if (!form) return;
  const [box, list, said] = ["input", "ol", "[role=status]"].map((name) => form.querySelector(name));
  form.hidden = false;
  const show = () => {
    const found = box.value.trim() ? find(box.value) : [];
    list.replaceChildren(...found.slice(0, 12).map((leaf) => line(leaf, "whole" in form.dataset)));
    const shown = found.length > 12 ? ", the first 12 are shown" : "";
    said.textContent = !box.value.trim() ? ""
      : found.length === 0 ? "No leaf holds all these words. Try one of them, or the start of a word."
      : found.length === 1 ? "1 leaf found" : `${found.length} leaves found${shown}`;
  };
  box.addEventListener("input", show);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    show();
    const first = list.querySelector("a");
    if (first) first.focus();
  });
  if (box.value) show();
})();
