using Broodtide.Parts;

// parts RULES NAME VERSION UNIX-SECONDS OUT-FOLDER [--deps FILE] BOM...
const int NotAllowed = 1;
const int NotUnderstood = 2;
if (args.Length < 6)
{
    Console.Error.WriteLine(
        "usage: Broodtide.Parts RULES NAME VERSION UNIX-SECONDS OUT-FOLDER [--deps FILE] BOM..."
    );
    return NotUnderstood;
}

var rules = PartRules.From(File.ReadAllText(args[0]));
var rest = args[5..].ToList();
var deps = new List<string>();
while (rest.IndexOf("--deps") is >= 0 and var at)
{
    deps.Add(File.ReadAllText(rest[at + 1]));
    rest.RemoveRange(at, 2);
}

var list = PartList.Of(
    [.. rest.Select(File.ReadAllText)],
    args[1],
    args[2],
    DateTimeOffset.FromUnixTimeSeconds(long.Parse(args[3]))
);
list.Tell(rules.Read);
foreach (var part in rules.Added)
{
    list.Add(part);
}

foreach (var text in deps)
{
    list.AddRuntimes(text, rules.Runtime);
}

Directory.CreateDirectory(args[4]);
File.WriteAllText(Path.Combine(args[4], "parts.cdx.json"), list.ToJson());
File.WriteAllText(Path.Combine(args[4], "LICENCES.md"), list.ToMarkdown());
var refused = list.Refused(rules.Allowed);
foreach (var one in refused)
{
    Console.Error.WriteLine($"licence not allowed: {one}");
}

Console.WriteLine($"{list.Parts.Count} parts, {refused.Count} with a licence that is not allowed");
return refused.Count == 0 ? 0 : NotAllowed;
