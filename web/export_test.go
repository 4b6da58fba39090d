package web

// Routes lists method and path of every address, for the tests.
func Routes() [][2]string {
	var list [][2]string
	for _, r := range (&Server{}).routes() {
		list = append(list, [2]string{r.method, r.path})
	}
	return list
}
