using Broodtide.Durability;

// broodtide-durability write FOLDER SEED [plant]
// broodtide-durability photos FOLDER SEED
// broodtide-durability prove --shim FILE [--kills N] [--cuts N] [--seed N] [--plant]
return args switch
{
    ["write", var folder, var seed] => await Writer.RunAsync(folder, int.Parse(seed), isPlanted: false),
    ["write", var folder, var seed, "plant"] => await Writer.RunAsync(
        folder,
        int.Parse(seed),
        isPlanted: true
    ),
    ["photos", var folder, var seed] => PhotoWriter.Run(folder, int.Parse(seed)),
    ["prove", .. var rest] => await ProveAsync(rest),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine("prove --shim FILE [--kills N] [--cuts N] [--seed N] [--plant]");
    return 2;
}

static async Task<int> ProveAsync(string[] rest)
{
    string? shim = null;
    var (kills, cuts, seed, isPlanted) = (100, 100, 20_260, false);
    for (var i = 0; i < rest.Length; i++)
    {
        switch (rest[i])
        {
            case "--plant":
                isPlanted = true;
                break;
            case "--shim" when i + 1 < rest.Length:
                shim = Path.GetFullPath(rest[++i]);
                break;
            case "--kills" when i + 1 < rest.Length:
                kills = int.Parse(rest[++i]);
                break;
            case "--cuts" when i + 1 < rest.Length:
                cuts = int.Parse(rest[++i]);
                break;
            case "--seed" when i + 1 < rest.Length:
                seed = int.Parse(rest[++i]);
                break;
            default:
                return Usage();
        }
    }

    if (cuts > 0 && (shim is null || !File.Exists(shim)))
    {
        return Usage();
    }

    var proof = new Proof(shim, seed, isPlanted);
    var ended = new List<(string Name, Outcome Outcome)>
    {
        ("kills", await proof.KillAsync(kills)),
        ("power cuts", await proof.CutAsync(cuts)),
    };
    foreach (var (name, outcome) in ended)
    {
        Console.WriteLine(outcome.Say(name));
        foreach (var fault in outcome.Faults.Take(10))
        {
            Console.WriteLine($"  {fault}");
        }
    }

    return ended.TrueForAll(end => end.Outcome.Faults.Count == 0) ? 0 : 1;
}
