using System.CommandLine;

return new RootCommand("Broodtide carries one brood from a berried female to juveniles in fresh water.")
    .Parse(args)
    .Invoke();
