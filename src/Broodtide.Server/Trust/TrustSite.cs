using System.Text;
using Broodtide.Server.Certificates;
using Broodtide.Server.Opening;
using Broodtide.Server.Site;
using Broodtide.Server.Words;
using Broodtide.Units;

namespace Broodtide.Server.Trust;

/// <summary>
/// Serves the page on which a phone learns to trust the house: over plain HTTP on a port of its own, where nothing
/// else is, and over HTTPS beside the app, for who trusts it already.
/// </summary>
internal static class TrustSite
{
    private const string Plain = "text/html; charset=utf-8";

    // RFC 2585, 4.1 has pkix-cert; phones offer to install what carries this older name (from memory).
    private const string Certificate = "application/x-x509-ca-cert";

    /// <summary>Where the page lies beside the app: out of reach of the app's stored copy.</summary>
    public const string Path = PhoneSite.ApiPath + "/trust";

    /// <summary>The site of the plain port; none where it is not wanted.</summary>
    public static WebApplication? For(ServerOptions options, Doorway? doorway) =>
        doorway is not null && options.Opening is { TrustPage: not null } opening
            ? Build(opening, doorway, options.DataFolder)
            : null;

    /// <summary>Starts it and says on the server's own screen what a phone must show.</summary>
    public static async Task StartAsync(
        WebApplication? site,
        ServerOptions options,
        Doorway? doorway,
        CancellationToken cancel
    )
    {
        if (doorway?.Concern() is { } concern)
        {
            await Console.Out.WriteLineAsync(Said.Sentence(concern));
        }

        if (site is null || options.Opening?.TrustPage is not { } page)
        {
            return;
        }

        await site.StartAsync(cancel);
        using var authority = new CertificateFolder(options.DataFolder).Authority();
        if (authority is null)
        {
            return;
        }

        await Console.Out.WriteLineAsync(
            Said.Sentence(
                "started-trust",
                new Argument("page", page),
                new Argument("fingerprint", Fingerprint.Of(authority))
            )
        );
        if (!Console.IsOutputRedirected)
        {
            await Console.Out.WriteLineAsync(SquareCode.Text(page));
        }
    }

    // A server of its own, so that nothing of the house can be reached through it.
    private static WebApplication Build(Opening.Opening opening, Doorway doorway, DirectoryInfo data)
    {
        var builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory }
        );
        builder.WebHost.UseKestrelCore();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = 0;
            kestrel.ListenAnyIP(opening.TrustPort!.Value);
        });
        builder.Services.AddRoutingCore();
        builder.Services.AddHostFiltering(filter => filter.AllowedHosts = [.. doorway.Hosts]);
        var site = builder.Build();
        site.UseHostFiltering();
        site.MapTrust("", opening, data, isProtected: false);
        return site;
    }

    /// <summary>The page beside the app, for who trusts the house already and helps another phone.</summary>
    public static void MapTrust(this WebApplication app, ServerOptions options)
    {
        if (options.Opening is { } opening)
        {
            app.MapGroup("").AllowAnonymous().MapTrust(Path, opening, options.DataFolder, isProtected: true);
        }
    }

    private static void MapTrust(
        this IEndpointRouteBuilder app,
        string path,
        Opening.Opening opening,
        DirectoryInfo data,
        bool isProtected
    )
    {
        if (opening.TrustPage is not { } trustPage)
        {
            return;
        }

        var folder = new CertificateFolder(data);
        Map(
            "",
            Plain,
            speech =>
            {
                using var authority = folder.Authority();
                return authority is null
                    ? null
                    : Encoding.UTF8.GetBytes(
                        TrustPage.Html(authority, trustPage, opening.Address.Origin, isProtected, speech)
                    );
            }
        );
        Map(
            TrustPage.CertificateName,
            Certificate,
            _ =>
            {
                using var authority = folder.Authority();
                return authority?.RawData;
            }
        );
        Map(TrustPage.CodeName, "image/svg+xml", _ => Encoding.UTF8.GetBytes(SquareCode.Svg(trustPage)));
        Map(TrustPage.StyleName, "text/css", _ => Encoding.UTF8.GetBytes(TrustPage.Style));

        void Map(string name, string mediaType, Func<Speech, byte[]?> content) =>
            app.MapGet(
                $"{path}/{name}",
                (HttpContext context) =>
                {
                    var headers = context.Response.Headers;
                    headers.ContentSecurityPolicy = TrustPage.ContentPolicy;
                    headers.XContentTypeOptions = "nosniff";
                    headers.CacheControl = "no-store";
                    headers.Vary = "Accept-Language";
                    headers["Referrer-Policy"] = "no-referrer";
                    return content(Speeches.WantedBy(context.Request)) is { } bytes
                        ? Results.Bytes(bytes, mediaType)
                        : Results.NotFound();
                }
            );
    }
}
