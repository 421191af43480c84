using System.Net.Security;
using Broodtide.Server.Certificates;
using Broodtide.Server.Words;
using Broodtide.Storage.Households;
using Broodtide.Units;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Server.Kestrel.Https;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Server.Opening;

/// <summary>
/// The door to the network: opened only for a house that has an owner with a passphrase, over HTTPS, under the
/// address it is known by.
/// </summary>
internal sealed class Doorway(Opening opening, DirectoryInfo data, IClock clock)
{
    // Time to walk to every phone.
    private static readonly Duration EndsSoon = Duration.FromDays(90);

    private readonly HouseCertificates _own = new(new CertificateFolder(data), opening.Address.Names);

    private readonly GivenCertificate? _given = opening.Given is var (certificate, key)
        ? new(certificate, key, opening.Address.Host.Trim('[', ']'))
        : null;

    /// <summary>The door of a server that is opened; none for one that listens on its own machine.</summary>
    public static Doorway? For(ServerOptions options) =>
        options.Opening is { } opening ? new(opening, options.DataFolder, SystemClock.Instance) : null;

    /// <summary>Why the door stays shut, or nothing. The first opening makes the house's authority and keeps its address.</summary>
    public Remark? Prepare(HouseStore house)
    {
        var hasOwner = new HousePeople(house)
            .All()
            .Any(person =>
                person is { Role: Workbench.Sharing.Role.Owner, Removed: null, PassphraseHash: not null }
            );
        if (!hasOwner)
        {
            return new Remark("open-without-owner");
        }

        var addresses = new HouseAddresses(house);
        var origin = opening.Address.Origin;
        if (addresses.Current() is { } kept && kept != origin)
        {
            return new Remark("address-kept", new Argument("kept", kept), new Argument("asked", origin));
        }

        var now = clock.GetCurrentInstant();
        var trouble =
            _given is not null ? _given.Prepare(now)
            : opening.VouchesForItself ? _own.Prepare(now)
            : null;
        if (trouble is not null)
        {
            return trouble;
        }

        if (opening.VouchesForItself)
        {
            _own.Current(now).Certificate.Dispose();
        }

        addresses.KeepFirst(origin, now);
        return null;
    }

    /// <summary>What the person who starts the server should know, or nothing: the authority ends soon.</summary>
    public Remark? Concern() =>
        opening.VouchesForItself
        && _own.AuthorityEnd() is { } end
        && end - clock.GetCurrentInstant() < EndsSoon
            ? new Remark(
                "started-authority-near-end",
                new Argument("day", LocalDatePattern.Iso.Format(end.InUtc().Date))
            )
            : null;

    /// <summary>Listens: on every network with HTTPS, or on this machine where a proxy stands in front.</summary>
    public void Listen(WebApplicationBuilder builder, ServerOptions options)
    {
        if (opening.IsBehindProxy)
        {
            builder.WebHost.UseUrls([.. options.Addresses.Select(address => address.AbsoluteUri)]);
            builder.Services.Configure<ForwardedHeadersOptions>(TakeTheWordOfProxies);
            return;
        }

        builder.WebHost.ConfigureKestrel(kestrel =>
            kestrel.ListenAnyIP(
                opening.Address.Port,
                listen =>
                {
                    var log = listen.ApplicationServices.GetRequiredService<ILogger<Doorway>>();
                    var live = new LiveCertificate(
                        clock,
                        log,
                        now => _given is null ? _own.Current(now) : _given.Current()
                    );
                    listen.UseHttps(
                        new TlsHandshakeCallbackOptions
                        {
                            OnConnection = _ =>
                                ValueTask.FromResult(
                                    new SslServerAuthenticationOptions
                                    {
                                        ServerCertificateContext = live.Now(),
                                    }
                                ),
                        }
                    );
                }
            )
        );
    }

    /// <summary>The names under which the server answers.</summary>
    public IEnumerable<string> Hosts =>
        opening.Address.Names.All.Select(name => name.Contains(':') ? $"[{name}]" : name);

    /// <summary>First of all: who calls, by the word of a known proxy, and that the way to it was HTTPS.</summary>
    public void Guard(IApplicationBuilder app)
    {
        if (opening.IsBehindProxy)
        {
            app.UseForwardedHeaders();
            app.Use(HttpsOnly);
        }
    }

    private Task HttpsOnly(HttpContext context, RequestDelegate next)
    {
        if (context.Request.IsHttps)
        {
            return next(context);
        }

        if (HttpMethods.IsGet(context.Request.Method) || HttpMethods.IsHead(context.Request.Method))
        {
            // To the address of the house, whatever name was called.
            context.Response.Redirect(
                opening.Address.Origin + context.Request.Path.ToUriComponent() + context.Request.QueryString,
                permanent: false,
                preserveMethod: true
            );
            return Task.CompletedTask;
        }

        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        return context.Response.WriteAsync(Said.Sentence(new Remark("https-needed")));
    }

    private void TakeTheWordOfProxies(ForwardedHeadersOptions headers)
    {
        headers.ForwardedHeaders =
            ForwardedHeaders.XForwardedFor
            | ForwardedHeaders.XForwardedProto
            | ForwardedHeaders.XForwardedHost;
        headers.KnownProxies.Clear();
        headers.KnownIPNetworks.Clear();
        foreach (var network in opening.Proxies)
        {
            headers.KnownIPNetworks.Add(network);
        }

        // As far back as proxies are known, and no further.
        headers.ForwardLimit = null;
        headers.AllowedHosts = [.. Hosts];
    }
}
