// The framework runs this before it takes up taps itself: none may be kept for later from here on.
window.dispatchEvent(new Event('coatbook-wakes'))
