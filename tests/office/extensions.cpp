// Installing and removing extensions by the office's own ExtensionManager: unopkg refuses to work
// for root, and hangs on a profile that is in use.
#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/deployment/DeploymentException.hpp>
#include <com/sun/star/deployment/ExtensionManager.hpp>
#include <com/sun/star/deployment/XPackage.hpp>
#include <com/sun/star/task/XAbortChannel.hpp>
#include <com/sun/star/task/XInteractionApprove.hpp>
#include <com/sun/star/task/XInteractionHandler.hpp>
#include <com/sun/star/ucb/XCommandEnvironment.hpp>
#include <cppuhelper/implbase2.hxx>

#include "office.hpp"
#include "text.hpp"

namespace jarbook::office {

using namespace com::sun::star;

namespace {

// Answers whatever the installation asks with yes.
class Approving final
    : public cppu::WeakImplHelper2<ucb::XCommandEnvironment, task::XInteractionHandler> {
public:
    uno::Reference<task::XInteractionHandler> SAL_CALL getInteractionHandler() override {
        return this;
    }
    uno::Reference<ucb::XProgressHandler> SAL_CALL getProgressHandler() override { return {}; }
    void SAL_CALL handle(const uno::Reference<task::XInteractionRequest>& request) override {
        for (const auto& continuation : request->getContinuations()) {
            const uno::Reference<task::XInteractionApprove> yes(continuation, uno::UNO_QUERY);
            if (yes.is()) {
                yes->select();
                return;
            }
        }
    }
};

// The outer message of a failed installation says little; what went wrong is in the causes.
std::string with_causes(const deployment::DeploymentException& trouble) {
    std::string text = to_utf8(trouble.Message);
    uno::Any cause = trouble.Cause;
    for (int depth = 0; depth < 10; ++depth) {
        deployment::DeploymentException inner;
        uno::Exception other;
        if (cause >>= inner) {
            text += "; " + to_utf8(inner.Message);
            cause = inner.Cause;
        } else {
            if (cause >>= other)
                text += "; " + to_utf8(other.Message);
            break;
        }
    }
    return text;
}

} // namespace

void Office::install(const std::filesystem::path& oxt, Afterwards afterwards) {
    const std::string what = "installing " + oxt.string();
    if (!std::filesystem::exists(oxt))
        throw OfficeError(what + ": there is no such file");
    session_->call(what, [&] {
        const auto manager = deployment::ExtensionManager::get(session_->context());
        uno::Sequence<beans::NamedValue> properties(1);
        properties.getArray()[0].Name = "SUPPRESS_LICENSE";
        properties.getArray()[0].Value <<= rtl::OUString("1");
        try {
            const auto package =
                manager->addExtension(to_url(oxt), properties, "user", {}, new Approving);
            if (!package.is())
                throw session_->failure(what + ": the office refused it without a reason", nullptr);
        } catch (const deployment::DeploymentException& trouble) {
            throw session_->failure(what + ": " + with_causes(trouble), nullptr);
        }
    });
    if (afterwards == Afterwards::start_again)
        restart();
}

void Office::remove(const std::string& identifier, Afterwards afterwards) {
    const std::string what = "removing the extension " + identifier;
    session_->call(what, [&] {
        const auto manager = deployment::ExtensionManager::get(session_->context());
        try {
            const auto package =
                manager->getDeployedExtension("user", to_uno(identifier), "", new Approving);
            manager->removeExtension(to_uno(identifier), package->getName(), "user", {},
                                     new Approving);
        } catch (const deployment::DeploymentException& trouble) {
            throw session_->failure(what + ": " + with_causes(trouble), nullptr);
        }
    });
    if (afterwards == Afterwards::start_again)
        restart();
}

std::optional<std::string> Office::extension_version(const std::string& identifier) {
    return session_->call("looking for the extension " + identifier, [&] {
        std::optional<std::string> version;
        const auto manager = deployment::ExtensionManager::get(session_->context());
        for (const auto& package : manager->getDeployedExtensions("user", {}, new Approving))
            if (package->getIdentifier().Value == to_uno(identifier))
                version = to_utf8(package->getVersion());
        return version;
    });
}

} // namespace jarbook::office
