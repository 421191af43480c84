using Broodtide.Cli.Door;

return await CommandLine.RunAsync(args, Surroundings.OfThisMachine());
