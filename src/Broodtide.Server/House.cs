using Broodtide.Server.People;
using Broodtide.Server.Sharing;
using Broodtide.Server.Site;
using Broodtide.Workbench;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Hosting.StaticWebAssets;
using Microsoft.AspNetCore.Http.Features;

namespace Broodtide.Server;

/// <summary>Puts the server together and runs it until it is stopped.</summary>
internal static class House
{
    public static async Task<int> Run(ServerOptions options, CancellationToken cancel)
    {
        options.DataFolder.Create();
        await using var journal = await SharedJournal.OpenAsync(options, cancel);
        await using var app = Build(options, journal);
        await app.StartAsync(cancel);
        await Console.Out.WriteLineAsync($"Broodtide is at {AddressOf(app)}");
        await app.WaitForShutdownAsync(cancel);
        return 0;
    }

    public static WebApplication Build(ServerOptions options, IJournal journal)
    {
        var builder = WebApplication.CreateBuilder(
            new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory }
        );
        builder.WebHost.UseUrls([.. options.Addresses.Select(address => address.AbsoluteUri)]);
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.AddServerHeader = false);
        // Before it is published, the phone's files lie in their own project.
        StaticWebAssetsLoader.UseStaticWebAssets(builder.Environment, builder.Configuration);
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        builder.Services.AddSingleton(options);
        // A page elsewhere that points its own name at this machine is turned away.
        builder.Services.AddHostFiltering(filter =>
            filter.AllowedHosts = [.. AllowedHosts(builder.Configuration)]
        );

        var app = builder.Build();
        app.UseHostFiltering();
        app.UseSafeHeaders();
        app.LetInWhoeverIsHere();
        app.MapJournal(journal);
        app.MapPhone();
        return app;
    }

    private static string[] AllowedHosts(ConfigurationManager settings) =>
        settings["Hosts"]?.Split(';', StringSplitOptions.RemoveEmptyEntries)
        ?? ["localhost", "127.0.0.1", "[::1]"];

    private static string AddressOf(WebApplication app) =>
        app
            .Services.GetRequiredService<IServer>()
            .Features.GetRequiredFeature<IServerAddressesFeature>()
            .Addresses.First();
}
