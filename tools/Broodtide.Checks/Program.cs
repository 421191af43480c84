using Broodtide.Checks;

const string Usage =
    "checks FILE... [--data DIR]: runs files of checks and compares what the library computes.";

var files = new List<string>();
var dataFolder = Path.Combine("tests", "reference", "data");
for (var i = 0; i < args.Length; i++)
{
    switch (args[i])
    {
        case "--data" when i + 1 < args.Length:
            dataFolder = args[++i];
            break;
        case "--help" or "-h":
            Console.WriteLine(Usage);
            return 0;
        case var option when option.StartsWith('-'):
            Console.Error.WriteLine(
                option == "--data" ? "--data needs a folder." : $"{option} is no option. {Usage}"
            );
            return 2;
        case var file:
            files.Add(file);
            break;
    }
}

if (files.Count == 0)
{
    Console.Error.WriteLine($"At least one file is needed. {Usage}");
    return 2;
}

return CheckReport.Run(files, dataFolder, Console.Out);
