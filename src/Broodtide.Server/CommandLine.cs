using System.CommandLine;
using System.CommandLine.Parsing;
using Broodtide.Server.Addresses;
using Broodtide.Server.Backups;
using Broodtide.Server.Certificates;
using Broodtide.Server.Opening;
using Broodtide.Server.People;
using Broodtide.Server.Site;
using Broodtide.Server.Stores;

namespace Broodtide.Server;

/// <summary>The words after the program's name.</summary>
internal static class CommandLine
{
    public static RootCommand For(Func<ServerOptions, CancellationToken, Task<int>> run)
    {
        var urls = new Option<IReadOnlyList<Uri>>("--urls")
        {
            Description = "Addresses to listen on, parted by semicolons; this machine only.",
            HelpName = "addresses",
            CustomParser = ParseAddresses,
            DefaultValueFactory = _ => [new Uri(LocalAddresses.Default)],
        };
        var data = new Option<DirectoryInfo>("--data")
        {
            Description = "Folder of the journal; made if it is not there.",
            HelpName = "folder",
            DefaultValueFactory = _ => new DirectoryInfo(DefaultDataFolder),
        };
        var demo = new Option<bool>("--demo") { Description = "Start with an invented scenario." };
        var demoSensors = new Option<bool>("--demo-sensors")
        {
            Description = "With --demo: three invented sensors too, one of them stuck.",
        };

        var root = new RootCommand("Broodtide: serves the app for the phone and keeps the shared journal.")
        {
            urls,
            data,
            demo,
            demoSensors,
        };
        root.Validators.Add(result =>
        {
            if (result.GetValue(demoSensors) && !result.GetValue(demo))
            {
                result.AddError(
                    "--demo-sensors goes with --demo alone: sensors are invented beside an invented journal."
                );
            }
        });
        data.Recursive = true;
        var store = new StoreChoice();
        store.AddTo(root, demo);
        var opening = new OpeningOptions();
        opening.AddTo(root, demo, urls);
        var backups = new BackupOptions();
        // A database is backed up with its own tools, and what is invented is not worth it.
        backups.AddTo(root, demo, store.Option);
        root.Add(CertificateCommands.For(data));
        root.Add(new PeopleCommands(data, store).Make());
        root.Add(AddressCommands.For(data, store, StoreReports.Of));
        root.Add(StoreCommands.For(data, store));
        root.SetAction(
            (parsed, cancel) =>
                run(
                    new ServerOptions(
                        parsed.GetRequiredValue(urls),
                        parsed.GetRequiredValue(data),
                        parsed.GetValue(demo)
                    )
                    {
                        Opening = opening.Read(parsed),
                        Backups = backups.Read(parsed),
                        DemoSensors = parsed.GetValue(demoSensors),
                        Store = parsed.GetValue(demo) ? null : store.Read(parsed),
                    },
                    cancel
                )
        );
        return root;
    }

    private static string DefaultDataFolder =>
        Path.Combine(
            Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData,
                Environment.SpecialFolderOption.Create
            ),
            "broodtide"
        );

    private static IReadOnlyList<Uri>? ParseAddresses(ArgumentResult result)
    {
        var parsed = LocalAddresses.Parse(string.Join(';', result.Tokens.Select(token => token.Value)));
        if (parsed.Trouble is { } trouble)
        {
            result.AddError(trouble);
        }

        return parsed.Addresses;
    }
}
