package chronicle

type fileCache struct{}

func newFileCache() *fileCache { return &fileCache{} }
