// Package driver lets git merge and show channel plans by what they say: it is
// what git calls as its merge driver and as its text conversion, and it sets both
// up in a clone. See gitattributes(5), "Defining a custom merge driver" and
// "Performing text diffs of binary files".
//
//	driver.Install(ctx, dir)   // .gitattributes, and the configuration of this clone
//	driver.Look(ctx, dir)      // what of it is there
//	driver.Remove(ctx, dir)
//
// # Two halves
//
// That a file is a plan stands in .gitattributes, which is committed and which
// everybody gets. Which program to run stands in the configuration of each clone,
// which nobody gets: git takes no programs from a repository. So everybody installs
// once; until then git merges and shows plans as lines, without a word. Look tells.
// Forges run no drivers: what their merge button makes is what git alone would make,
// and is checked afterwards.
//
// # Merging one file
//
// Git asks for one file at a time. Merge looks for the commits that git is merging,
// by what git leaves in its environment and its folder, and by the files themselves.
// Where it is certain of all three, the whole plans are merged, and the answer is
// this file of it: a repeater that one side renamed in another file has its new key
// here too. Where it is not, the file is merged alone. A file that only one side
// changed is taken by git without asking; where that leads a reference astray, Merge
// says so. What is no plan that can be read is merged as lines, as git would.
//
// # Showing
//
// Facts gives the text of a plan as one fact a line, so that git diff, git log -p
// and git show read well: no line moves because a key did, and a number spelled
// another way is no change. Comments stand at the end. A text that cannot be read is
// given as it is.
package driver
