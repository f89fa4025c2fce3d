// Drawings of this page's own, as lines on a field of 24 by 24: what an action is about, before anybody reads its words.
'use strict';
window.rushlightDrawings = (function () {
  const shapes = {
    'by-mouth': ['M7 5h10l-1.2 15H8.2z', 'M8 11h8', 'M14 5l2.5-3'],
    glucagon: ['M3 8h18v12H3z', 'M9 8V5h6v3', 'M12 11v6', 'M9 14h6'],
    insulin: ['M4 20l3-3', 'M7 17l8-8 3 3-8 8z', 'M16.5 6.5l4 4', 'M10 14l2 2'],
    fluid: ['M6 4h12l-1.5 17h-9z', 'M7 13c2-1.5 3 1.5 5 0s3 1.5 5 0'],
    measure: ['M12 3c4 5 6 7.5 6 11a6 6 0 0 1-12 0c0-3.5 2-6 6-11z', 'M9.5 14.5a2.5 2.5 0 0 0 2.5 2.5'],
    position: ['M3 17h18', 'M6 13.5h9l3 1.5', 'M4.5 11.5a1.6 1.6 0 1 0 .1 0', 'M10 13.5l2-4 3 1'],
    pump: ['M5 6h11v12H5z', 'M8 9h5v4H8z', 'M16 12c4 0 4 5 1 6'],
    'call-clinic': ['M6 3h4l1.5 5-2.5 1.5c1 2.5 2.5 4 5 5l1.5-2.5 5 1.5v4c-7 2-16-7-14.5-14.5z'],
    'call-emergency': ['M6 3h4l1.5 5-2.5 1.5c1 2.5 2.5 4 5 5l1.5-2.5 5 1.5v4c-7 2-16-7-14.5-14.5z', 'M17 2v5', 'M14.5 4.5h5'],
    watch: ['M2 12c4-6.5 16-6.5 20 0-4 6.5-16 6.5-20 0z', 'M12 9a3 3 0 1 0 .1 0'],
    note: ['M6 3h9l4 4v14H6z', 'M9 11h7', 'M9 15h7'],
    tel: ['M6 3h4l1.5 5-2.5 1.5c1 2.5 2.5 4 5 5l1.5-2.5 5 1.5v4c-7 2-16-7-14.5-14.5z'],
    adult: ['M9 4a2.5 2.5 0 1 0 .1 0', 'M4.5 21v-7c0-3 2-4 4.5-4s4.5 1 4.5 4v7', 'M18 11a1.8 1.8 0 1 0 .1 0', 'M15.5 21v-3c0-2 1-3 2.5-3s2.5 1 2.5 3v3', 'M13 15l2.5 2'],
    help: ['M3 17V9h10v8', 'M13 11h4l4 3.5V17', 'M2 17h20', 'M7 17a2 2 0 1 0 .1 0', 'M17 17a2 2 0 1 0 .1 0', 'M8 10.5v4', 'M6 12.5h4', 'M8 6V4', 'M5.5 6.5L4.5 5', 'M10.5 6.5l1-1.5'],
    needle: ['M5 19l4-4', 'M8 13l6-6 4 4-6 6z', 'M16 5l4 4', 'M18 7l-2 2'],
    door: ['M5 21V3h10v18', 'M3 21h18', 'M12 12v.1', 'M15 5l5 2v14'],
    stay: ['M8 6a2 2 0 1 0 .1 0', 'M5 20v-6c0-2 1-3.5 3-3.5s3 1.5 3 3.5', 'M3 20h18', 'M13 17h7', 'M14.5 14.5a1.5 1.5 0 1 0 .1 0']
  };
  const crossed = { needle: ['M3 3l18 18'] };

  function path(d, kind) {
    const line = document.createElementNS('http://www.w3.org/2000/svg', 'path');
    line.setAttribute('d', d);
    if (kind) line.setAttribute('class', kind);
    return line;
  }

  // The words beside it say the same: a screen reader passes over the drawing.
  return function drawing(name) {
    const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
    svg.setAttribute('viewBox', '0 0 24 24');
    svg.setAttribute('aria-hidden', 'true');
    svg.setAttribute('focusable', 'false');
    for (const d of shapes[name] || shapes.note) svg.append(path(d));
    for (const d of crossed[name] || []) svg.append(path(d, 'no'));
    return svg;
  };
})();
