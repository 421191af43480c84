using System.CommandLine;
using System.CommandLine.Parsing;
using System.Net;
using Broodtide.Server.Words;
using Broodtide.Units;
using Argument = Broodtide.Units.Argument;

namespace Broodtide.Server.Opening;

/// <summary>The words by which the server is opened to the network.</summary>
internal sealed class OpeningOptions
{
    /// <summary>Without a right of the system's own, beside the port of this machine.</summary>
    private const int DefaultTrustPort = 5088;

    private const int HttpsPort = 443;

    private readonly Option<string> _open = new("--open")
    {
        Description =
            "Opens the server to the network of the house: the name phones use, with a port if it is not "
            + "5443, then other names and addresses, parted by commas. Needs an owner with a passphrase, and HTTPS.",
        HelpName = "names",
    };

    private readonly Option<string> _behindProxy = new("--behind-proxy")
    {
        Description =
            "With --open: a proxy on this machine holds the certificate; the addresses of the proxies, or networks "
            + "such as 172.17.0.0/16, whose word about the caller is taken.",
        HelpName = "addresses",
    };

    private readonly Option<FileInfo> _certificate = new("--certificate")
    {
        Description = "With --open: a certificate made elsewhere, PEM, with those above it.",
        HelpName = "file",
    };

    private readonly Option<FileInfo> _key = new("--certificate-key")
    {
        Description = "With --certificate: its private key, PEM.",
        HelpName = "file",
    };

    private readonly Option<int> _trustPort = new("--trust-port")
    {
        Description =
            "With --open: where a phone learns to trust the server, plain HTTP, that page alone; 0 for nowhere.",
        HelpName = "port",
        DefaultValueFactory = _ => DefaultTrustPort,
    };

    /// <summary>Adds them to a command; what does not go together is said before anything is started.</summary>
    public void AddTo(Command command, Option<bool> demo, Option urls)
    {
        foreach (Option option in (Option[])[_open, _behindProxy, _certificate, _key, _trustPort])
        {
            command.Add(option);
        }

        command.Validators.Add(result =>
        {
            if (Trouble(result, demo, urls) is { } trouble)
            {
                result.AddError(Said.Sentence(trouble));
            }
        });
    }

    /// <summary>How the server is opened; none where it is not. Only after parsing found no error.</summary>
    public Opening? Read(ParseResult parsed)
    {
        if (parsed.GetValue(_open) is not { } names)
        {
            return null;
        }

        var proxies = Proxies(parsed.GetValue(_behindProxy)) ?? [];
        var isGiven = parsed.GetValue(_certificate) is not null;
        var port = parsed.GetValue(_trustPort);
        return new(
            OpenAddress.Parse(names, DefaultPort(proxies.Count > 0)).Address
                ?? throw new InvalidOperationException("Names were not checked."),
            proxies,
            isGiven ? (parsed.GetRequiredValue(_certificate), parsed.GetRequiredValue(_key)) : null,
            proxies.Count == 0 && !isGiven && port > 0 ? port : null
        );
    }

    private Remark? Trouble(CommandResult result, Option<bool> demo, Option urls)
    {
        var isProxied = result.GetResult(_behindProxy) is not null;
        if (result.GetResult(_open) is not { Tokens.Count: > 0 })
        {
            foreach (var alone in (Option[])[_behindProxy, _certificate, _key])
            {
                if (result.GetResult(alone) is not null)
                {
                    return new Remark("option-needs", Named("option", alone), Named("other", _open));
                }
            }

            return null;
        }

        if (result.GetValue(demo))
        {
            return new Remark("options-apart", Named("option", _open), Named("other", demo));
        }

        if (isProxied && result.GetResult(_certificate) is not null)
        {
            return new Remark("options-apart", Named("option", _behindProxy), Named("other", _certificate));
        }

        if (!isProxied && result.GetResult(urls) is { Implicit: false })
        {
            return new Remark("options-apart", Named("option", _open), Named("other", urls));
        }

        if (result.GetResult(_certificate) is null != result.GetResult(_key) is null)
        {
            return new Remark("option-needs", Named("option", _certificate), Named("other", _key));
        }

        if (isProxied && Proxies(result.GetValue(_behindProxy)) is null)
        {
            return new Remark("proxies-not-read", new Argument("typed", result.GetValue(_behindProxy) ?? ""));
        }

        var (address, trouble) = OpenAddress.Parse(result.GetValue(_open) ?? "", DefaultPort(isProxied));
        if (trouble is not null || isProxied || result.GetResult(_certificate) is not null)
        {
            return trouble;
        }

        // A port that was not typed has no result yet.
        var trustPort = result.GetResult(_trustPort) is null ? DefaultTrustPort : result.GetValue(_trustPort);
        return trustPort is >= 0 and <= 65535 && trustPort != address?.Port
            ? null
            : new Remark("trust-port", new Argument("typed", trustPort));
    }

    private static int DefaultPort(bool isProxied) => isProxied ? HttpsPort : OpenAddress.DefaultPort;

    private static Argument Named(string name, Option option) => new(name, option.Name);

    private static List<IPNetwork>? Proxies(string? text)
    {
        var found = new List<IPNetwork>();
        foreach (
            var part in (text ?? "").Split(
                [',', ';', ' '],
                StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
            )
        )
        {
            if (IPAddress.TryParse(part, out var address))
            {
                found.Add(new IPNetwork(address, address.GetAddressBytes().Length * 8));
            }
            // A network of everybody would take anybody's word.
            else if (IPNetwork.TryParse(part, out var network) && network.PrefixLength > 0)
            {
                found.Add(network);
            }
            else
            {
                return null;
            }
        }

        return text is null || found.Count > 0 ? found : null;
    }
}
