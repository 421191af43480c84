using System.Globalization;
using Broodtide.Looking.Sets;
using Broodtide.Looking.Stress;
using Broodtide.Looking.Tried;

// Each set that the folder holds is looked at and printed. One file a set in Sets/: its folder's name, and what it prints.
(string Folder, Action<string> Print)[] sets =
[
    (Photos.Folder, Photos.Print),
    (Bursts.Folder, Bursts.Print),
    (Scale.Folder, Scale.Print),
    (Stacks.WithTruth, Stacks.PrintTruth),
    (Stacks.Algae, Stacks.PrintReal),
    (Stacks.Macro, Stacks.PrintReal),
];

// Invented pictures, made anew from a seed: --tries NAME NUMBER SEED.
if (
    args is ["--tries", "rulers" or "chambers" or "lengths", var number, var seed]
    && int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var many)
    && int.TryParse(seed, NumberStyles.None, CultureInfo.InvariantCulture, out var begin)
)
{
    Tries.Run(args[1], many, begin);
    return 0;
}

if (args is ["--stress", .. var wanted])
{
    return StressRun.Begin(wanted);
}

if (args is not [var root] || !Directory.Exists(root))
{
    await Console.Error.WriteLineAsync(
        "usage: looking-report DIR | --tries rulers|chambers|lengths NUMBER SEED"
    );
    return 2;
}

try
{
    foreach (var (folder, print) in sets)
    {
        if (Path.Combine(root, folder) is var held && Directory.Exists(held))
        {
            print(held);
        }
    }
}
catch (Exception trouble) when (trouble is IOException or InvalidDataException or FormatException)
{
    await Console.Error.WriteLineAsync(trouble.Message);
    return 2;
}

return 0;
