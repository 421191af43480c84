using System.Globalization;
using Broodtide.Benchmarks;
using Broodtide.Speed;

// broodtide-speed NATIVE-FOLDER [--quick] [PART...]     parts: water estimator twin append import opening start laws; all unless told otherwise
if (args is [StartDuel.Hello])
{
    Console.WriteLine(StartDuel.Hello);
    return 0;
}

if (args is not [var folder, .. var rest] || !Directory.Exists(folder))
{
    Console.Error.WriteLine("NATIVE-FOLDER [--quick] [PART...]; eng/speed builds the folder and calls this.");
    return 2;
}

var quick = rest.Contains("--quick");
var wanted = rest.Where(part => part != "--quick").ToHashSet();
bool Asked(string part) => wanted.Count == 0 || wanted.Contains(part);

Told.Line(TimeProvider.System.GetUtcNow().ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture));
Told.Line(Machine.Describe());
if (Asked("water"))
{
    WaterDuel.Run(folder, 1_000_000, quick ? 21 : 101);
}

if (Asked("estimator"))
{
    EstimatorDuel.Run(quick ? 21 : 61);
}

if (Asked("twin"))
{
    TwinDuel.Run(quick ? 11 : 31);
}

if (Asked("append"))
{
    AppendDuel.Run(quick ? 200 : 500, quick ? 7 : 15);
}

if (Asked("import"))
{
    ImportDuel.Run(1_000_000, quick ? 3 : 7);
}

if (Asked("opening"))
{
    Opening.Run(50_000, quick ? 5 : 11);
}

if (Asked("start"))
{
    StartDuel.Run(quick ? 11 : 21);
}

if (Asked("laws"))
{
    CostLaws.Run(quick);
}

return 0;
