using System.Globalization;
using Broodtide.Looking.Sets;
using Broodtide.Looking.Stress;
using Broodtide.Looking.Tried;

// Each set that the folder holds is looked at and printed. One file a set in Sets/: its folder's name, and what it prints.
(string Folder, Action<string> Print)[] sets =
[
    (Photos.Folder, Photos.Print),
    (Bursts.Folder, Bursts.Print),
