package mistakes

// inProtection are mistakes with what protects, and with what is public.
func inProtection() []mistake {
	return nil
}
