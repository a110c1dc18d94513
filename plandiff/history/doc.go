// Package history reads a plan as it was: the files of any commit of a git
// repository, the commits that changed them, and the place where two branches
// parted. Nothing is checked out, fetched or written.
//
// # The flow
//
//	repository, err := history.Open(ctx, ".")              // from any folder of a clone
//	defer repository.Close()
//	commit, err := repository.Resolve(ctx, "origin/main")  // what a person types
//	files, err := repository.Tree(ctx, commit, repository.Prefix())
//	// files is an fs.FS: hand it to plan.Load
//
// WorkTree gives an fs.FS of the same manners for a folder on disk, so that the
// plan being edited and the plan of last year are read alike.
//
// To compare a branch with the place where it left another one, ask MergeBase
// first. Changes lists the files that differ between two commits; Walk lists the
// commits of a stretch of history with the files that each changed. Both give
// hashes: Blob reads one, and equal hashes are equal bytes, so that nothing need
// be read or understood twice.
//
// # Revisions
//
// Resolve understands HEAD, a branch, a tag, a remote branch, a hash of four or
// more digits, and ~ and ^ behind any of them. Ranges (a..b), files (a:b) and
// reflog entries (a@{1}) are refused by name. An unknown name is answered with
// the nearest ones. In a shallow clone, as continuous integration makes it, the
// error says which line of the workflow to change.
//
// # Two ways to read
//
// A repository is read with go-git (the library, Backing "go-git") or with the
// git command (Backing "git"). Open begins with go-git, which starts no process.
// The git command takes over, for good, when go-git does not find or cannot read
// something, and for Walk, where it is several times faster. Some repositories
// only git reads:
//
//	repository                                        go-git   git
//	plain, packed, bare, linked work tree, shallow    yes      yes
//	submodule, sparse checkout, multi-pack index      yes      yes
//	objects borrowed (clone --shared, --reference)    no       yes
//	SHA-256 objects                                   no       yes
//	reftable references                               no       since git 2.45
//	partial clone (--filter)                          what is there; nothing is fetched
//
// Where git is needed and not at hand, the error says so and is ErrNeedsGit.
// Both ways give the same commits and bytes. To that end both only deliver
// objects and names, and this package alone works out what these mean; replaced
// objects and grafts (git-replace) are not applied.
//
// # Trust
//
// A repository is data, and so is its configuration. git is started so that it
// runs no hook, alias, pager, filter, signature checker or other program that a
// repository may name, asks for no password, takes no lock and reaches no
// network. Variables such as GIT_DIR are not heeded. What git thinks of the
// owner of the files is respected where git is used ("dubious ownership").
//
// A file system of this package never leads out of its folder or commit:
// symbolic links and submodules are shown by their mode and cannot be opened.
// Names, subjects and file names are untrusted text; printing them safely is
// the business of whoever prints.
//
// # What it does not do
//
// It writes nothing, fetches nothing, follows no rename, and does not read the
// index. Objects that a server holds back in quarantine while it runs a
// pre-receive hook are not seen. Which of two words on a command line is a
// revision and which a path is for the command to say; IsRevision helps. A
// commit message in an encoding other than UTF-8 and Latin-1 shows U+FFFD.
package history
