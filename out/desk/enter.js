// Enters with the token in the address, which the browser keeps to itself.
if (location.hash.length > 1) {
	const form = document.getElementById("enter");
	form.elements.token.value = location.hash.slice(1);
	history.replaceState(null, "", location.pathname);
	form.submit();
}
