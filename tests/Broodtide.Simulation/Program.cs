using System.Globalization;
using Broodtide.Simulation;
using Broodtide.Simulation.Larvae;
using Broodtide.Simulation.Waters;

if (args is ["larvae", ..])
{
    return await LarvaeCommand.Run(args[1..]);
}

if (args is ["waters", ..])
{
    return await WatersCommand.Run(args[1..]);
}

var broods = 400;
ulong seed = 1;
var folder = "";
for (var i = 0; i + 1 < args.Length; i += 2)
{
    switch (args[i])
    {
        case "--broods"
            when int.TryParse(args[i + 1], CultureInfo.InvariantCulture, out var count) && count > 0:
            broods = count;
            break;
        case "--seed" when ulong.TryParse(args[i + 1], CultureInfo.InvariantCulture, out var number):
            seed = number;
            break;
        case "--out":
            folder = args[i + 1];
            break;
        default:
            folder = "";
            i = args.Length;
            break;
    }
}

if (folder.Length == 0 || args.Length % 2 != 0)
{
    await Console.Error.WriteLineAsync(
        "usage: --out DIR [--broods 400] [--seed 1], or larvae --scenario NAME --out DIR, or waters --out DIR"
    );
    return 2;
}

Broods.Write(folder, broods, seed);
return 0;
