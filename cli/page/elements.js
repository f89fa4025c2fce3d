// How any page here makes an element and fills in a sentence.
'use strict';
window.rushlightElements = (function () {
  function say(sentence, one, two) {
    return sentence.replace(/\{([12])\}/g, function (blank, which) { return which === '1' ? one : two; });
  }

  // Text is only ever put in as text.
  function h(name, attributes, ...children) {
    const element = document.createElement(name);
    for (const key of Object.keys(attributes || {})) {
      const value = attributes[key];
      if (key.startsWith('on')) element[key] = value;
      else if (value !== null && value !== undefined && value !== false) element.setAttribute(key, value);
    }
    for (const child of children) if (child !== null && child !== undefined) element.append(child);
    return element;
  }

  function later(milliseconds) { return new Promise(function (yes) { setTimeout(yes, milliseconds); }); }

  return { say, h, later };
})();
